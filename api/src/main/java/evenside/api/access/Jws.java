package evenside.api.access;

import evenside.schemas.NotJson;
import evenside.schemas.StrictJson;
import evenside.schemas.StrictJson.Limits;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/**
 * A signed token in compact form (RFC 7515), taken apart and not yet believed. Read strictly: no
 * name twice in header or payload, base64url in its one spelling.
 *
 * @param headerText the header as sent
 * @param header the protected header
 * @param payload the payload
 * @param signed what the signature is on
 * @param signature the signature
 */
@SuppressWarnings("ArrayRecordComponent") // never compared, and the arrays are never changed
record Jws(String headerText, JsonNode header, JsonNode payload, byte[] signed, byte[] signature) {
  private static final Limits LIMITS = new Limits(8 * 1024, 8, 4_096, 128, 32, 1_000);

  static Optional<Jws> parse(String token) {
    String[] parts = token.split("\\.", -1);
    if (parts.length != 3) {
      return Optional.empty();
    }
    try {
      JsonNode header = StrictJson.read(decode(parts[0]), LIMITS);
      JsonNode payload = StrictJson.read(decode(parts[1]), LIMITS);
      byte[] signed = (parts[0] + "." + parts[1]).getBytes(StandardCharsets.US_ASCII);
      boolean objects = header.isObject() && payload.isObject();
      return objects
          ? Optional.of(new Jws(parts[0], header, payload, signed, decode(parts[2])))
          : Optional.empty();
    } catch (NotJson | IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  String algorithm() {
    return text(header, "alg");
  }

  String keyId() {
    return text(header, "kid");
  }

  /** A member that must be text; empty if it is not there or something else. */
  static String text(JsonNode object, String name) {
    JsonNode value = object.path(name);
    return value.isString() ? value.asString() : "";
  }

  private static byte[] decode(String text) {
    byte[] bytes = Base64.getUrlDecoder().decode(text);
    if (!Base64.getUrlEncoder().withoutPadding().encodeToString(bytes).equals(text)) {
      throw new IllegalArgumentException("base64url in another spelling");
    }
    return bytes;
  }
}
