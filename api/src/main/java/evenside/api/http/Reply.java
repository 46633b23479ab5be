package evenside.api.http;

import evenside.document.Document;
import java.io.IOException;
import java.io.OutputStream;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The answer to one call.
 *
 * @param status HTTP status
 * @param mediaType media type of the body
 * @param body the body; not to be changed
 * @param headers further headers
 * @param stream writes the body instead, piece by piece
 */
@SuppressWarnings("ArrayRecordComponent") // never compared, and the body is never changed
public record Reply(
    int status,
    String mediaType,
    byte[] body,
    Map<String, String> headers,
    Optional<Stream> stream) {
  private static final String ETAG = "ETag";

  /** Keeps its own copy of the headers. */
  public Reply {
    headers = Map.copyOf(headers);
  }

  /** A body that is there as a whole. */
  public Reply(int status, String mediaType, byte[] body, Map<String, String> headers) {
    this(status, mediaType, body, headers, Optional.empty());
  }

  /** Writes a body piece by piece. */
  @FunctionalInterface
  public interface Stream {
    /**
     * Writes all of it.
     *
     * @throws IOException if the client does not take it
     */
    void writeTo(OutputStream out) throws IOException;
  }

  /** A body that is written as it is made. */
  public static Reply streaming(String mediaType, Stream stream) {
    return new Reply(200, mediaType, new byte[0], Map.of(), Optional.of(stream));
  }

  /** A document as stored, with its tag and its digest. */
  public static Reply of(Document document) {
    return of(document.bytes(), Route.JSON, HexFormat.of().parseHex(document.sha256()));
  }

  /** Published bytes, with their tag and their digest. */
  public static Reply of(byte[] body, String mediaType) {
    return of(body, mediaType, Digests.sha256(body));
  }

  /** A document that was made for this answer and is not kept: without tag and digest. */
  public static Reply ofPassing(Document document) {
    return new Reply(200, Route.JSON, document.bytes(), Map.of());
  }

  private static Reply of(byte[] body, String mediaType, byte[] sha256) {
    return new Reply(
        200,
        mediaType,
        body,
        Map.of(ETAG, EntityTags.of(sha256), "Repr-Digest", Digests.field(sha256)));
  }

  /** A list or report made for this answer, without tag and digest. */
  public static Reply of(JsonNode json) {
    return new Reply(200, Route.JSON, JsonMapper.shared().writeValueAsBytes(json), Map.of());
  }

  /** The same reply with another status. */
  public Reply withStatus(int other) {
    return new Reply(other, mediaType, body, headers, stream);
  }

  /** The same reply with one more header. */
  public Reply with(String name, String value) {
    Map<String, String> more = new LinkedHashMap<>(headers);
    more.put(name, value);
    return new Reply(status, mediaType, body, more, stream);
  }

  /** The same reply, saying what may be kept. */
  public Reply cached(Cache cache) {
    return with("Cache-Control", cache.value());
  }

  /** The same reply, linked to the schema of its body. */
  public Reply describedBy(String schemaVersion, String kind) {
    return with("Link", "</v1/schemas/" + schemaVersion + "/" + kind + ">; rel=\"describedby\"");
  }
}
