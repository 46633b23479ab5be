package evenside.readiness.recording;

import evenside.document.Document;
import evenside.store.SentRecord;
import java.util.Optional;
import java.util.function.Function;
import tools.jackson.databind.JsonNode;

/**
 * What a sender sent to be recorded.
 *
 * @param caseId the case
 * @param recordId the sender's own id, if given; makes a repeat harmless for ever
 * @param content the content as sent
 */
public record Sent(String caseId, Optional<String> recordId, Document content) {
  /** What was sent to a case. */
  public static Sent of(String caseId, JsonNode json) {
    Optional<String> recordId =
        Optional.of(json.path("recordId").asString("")).filter(id -> !id.isEmpty());
    return new Sent(caseId, recordId, Document.of(json));
  }

  /**
   * The record that was made when this was sent before; refused if the content differs.
   *
   * @param find reads the record with the sender's id
   * @param what the record in words, with its article
   */
  public Optional<Recorded> twin(
      Function<String, Optional<? extends SentRecord>> find, String what) {
    Optional<? extends SentRecord> found = recordId.flatMap(find);
    if (found.isEmpty()) {
      return Optional.empty();
    }
    SentRecord stored = found.get();
    if (!stored.caseId().equals(caseId)) {
      throw Refused.because(
          Refusal.CONFLICT, what + " with this recordId is recorded already, on another case");
    }
    if (!stored.contentSha256().equals(content.sha256())) {
      throw Refused.because(
          Refusal.CONFLICT, what + " with this recordId and other content is recorded already");
    }
    Document document = Document.ofCanonical(stored.document());
    return Optional.of(new Recorded(stored.id().toString(), document, Recorded.Novelty.UNCHANGED));
  }
}
