package evenside.api.resource;

import evenside.api.http.Call;
import evenside.api.http.IdempotencyKeys;
import evenside.api.http.Method;
import evenside.api.http.Reply;
import evenside.document.CanonicalJson;
import evenside.document.Document;
import evenside.readiness.recording.IdempotencyKey;
import evenside.readiness.recording.Recorded;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import tools.jackson.databind.JsonNode;

/** Idempotent recording: the key, what it stands for, and the reply. */
public final class Idempotency {
  private Idempotency() {}

  /** The key of a call; read before the body, as a call without one is refused anyway. */
  static String read(Call call) {
    return IdempotencyKeys.read(call.header("Idempotency-Key"));
  }

  /** The key with the fingerprint of the whole request: method, path, clinic, canonical body. */
  static IdempotencyKey of(String key, Call call, JsonNode body) {
    return of(key, call.method(), call.path(), call.clinic(), body);
  }

  /** The key of a request that came in another way, such as a line of many. */
  public static IdempotencyKey of(
      String key, Method method, String path, String clinic, JsonNode body) {
    String line = method + "\n" + path + "\n" + clinic + "\n";
    ByteArrayOutputStream request = new ByteArrayOutputStream();
    request.writeBytes(line.getBytes(StandardCharsets.UTF_8));
    request.writeBytes(CanonicalJson.bytes(body));
    return new IdempotencyKey(key, Document.sha256(request.toByteArray()));
  }

  /** The reply to a recording: 201 with the place, or 200 if the same content was there before. */
  static Reply reply(Recorded recorded, String folder, Reply document) {
    Reply reply = Receipts.with(document, recorded.receipt());
    Reply created = reply.withStatus(201).with("Location", folder + recorded.id());
    return switch (recorded.novelty()) {
      case CREATED -> created;
      case REPLAYED -> created.with("Idempotency-Replayed", "true");
      case UNCHANGED, CHANGED -> reply;
    };
  }
}
