package evenside.readiness.cases;

import evenside.document.Document;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Records;
import evenside.readiness.recording.UnchangedCase;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** Putting and looking up cases. */
public final class Cases {
  private final Records records;

  public Cases(Records records) {
    this.records = records;
  }

  /**
   * Records a case, or a new revision of it.
   *
   * @param ifMatch fingerprint of the record the caller has seen; needed to change one
   */
  public Recorded put(String clinic, String caseId, JsonNode json, Optional<String> ifMatch) {
    records.accept("case", json);
    Document content = Document.of(json);
    return UnchangedCase.again(
        () ->
            records
                .recording()
                .write(
                    clinic,
                    writing ->
                        new CaseRevision(writing, clinic, caseId, records.now())
                            .put(json, content, ifMatch)));
  }

  /** The newest revision of a case. */
  public Document get(String clinic, String caseId) {
    byte[] document =
        records.store().read(reading -> Records.known(reading, clinic, caseId).document());
    return Document.ofCanonical(document);
  }

  /** True if some case of the clinic is, or was in an earlier revision, about this person. */
  public boolean knows(String clinic, String subject) {
    return records.store().read(reading -> reading.audit().knowsSubject(clinic, subject));
  }
}
