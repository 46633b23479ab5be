package evenside.readiness.cases;

import evenside.document.Document;
import evenside.intake.RuleCode;
import evenside.knee.KneeCase;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Records;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.readiness.training.SessionHistory;
import evenside.schemas.Fault;
import evenside.schemas.StrictJson;
import evenside.store.SentEntry;
import evenside.store.StoredCase;
import evenside.store.Writing;
import evenside.store.cohort.CaseFacts;
import evenside.training.Entry;
import evenside.training.Session;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Puts a case, or a changed case as a new revision beside the old one. */
final class CaseRevision {
  private static final Instant END = Instant.parse("9999-12-31T00:00:00Z");

  /** More entries than a training record has. */
  private static final int MOST = 10_000;

  private final Writing writing;
  private final String clinic;
  private final String caseId;
  private final Instant now;

  CaseRevision(Writing writing, String clinic, String caseId, Instant now) {
    this.writing = writing;
    this.clinic = clinic;
    this.caseId = caseId;
    this.now = now;
  }

  /**
   * Puts the case.
   *
   * @param ifMatch fingerprint of the record the caller has seen; needed to change one
   */
  Recorded put(JsonNode json, Document content, Optional<String> ifMatch) {
    Optional<StoredCase> before = writing.cases().hold(clinic, caseId);
    if (before.isEmpty()) {
      if (ifMatch.isPresent()) {
        throw Refused.because(Refusal.PRECONDITION_FAILED, "there is no such case yet");
      }
      return insert(1, json, content, Recorded.Novelty.CREATED);
    }
    Document current = Document.ofCanonical(before.get().document());
    JsonNode old = StrictJson.read(current.bytes(), StrictJson.Limits.OWN);
    if (old.path("sha256").asString().equals(content.sha256())) {
      return new Recorded(caseId, current, Recorded.Novelty.UNCHANGED);
    }
    if (ifMatch.isEmpty()) {
      throw Refused.because(
          Refusal.PRECONDITION_REQUIRED,
          "this case exists with other content; to change it, name the revision you have seen");
    }
    if (!ifMatch.get().equals(current.sha256())) {
      throw Refused.because(Refusal.PRECONDITION_FAILED, "the case was changed in between");
    }
    sameSide(json, before.get());
    afterSurgeryStill(json, before.get());
    return insert(before.get().revision() + 1, json, content, Recorded.Novelty.CHANGED);
  }

  /** Records were accepted against the old side; turning it round would turn them all round. */
  private void sameSide(JsonNode json, StoredCase before) {
    KneeCase old = Records.kneeCase(before);
    boolean turned = !json.path("operatedSide").asString().equals(old.operatedSide().code());
    if (turned && hasRecords()) {
      throw Refused.faulty(
          List.of(
              Fault.at(
                      JsonPointer.compile("/operatedSide"),
                      RuleCode.SIDE_CONTRADICTS_BATTERIES.code(),
                      "this case has batteries or sessions that were recorded against the other operated side")
                  .withLimit(old.operatedSide().code())));
    }
  }

  /** The training record begins with the surgery: a later day would leave entries before it. */
  private void afterSurgeryStill(JsonNode json, StoredCase before) {
    LocalDate surgery = LocalDate.parse(json.path("surgeryDate").asString());
    if (!surgery.isAfter(Records.kneeCase(before).surgeryDate())) {
      return;
    }
    firstBefore(surgery)
        .ifPresent(
            entry -> {
              throw Refused.faulty(
                  List.of(
                      Fault.at(
                              JsonPointer.compile("/surgeryDate"),
                              RuleCode.DATE_BEFORE_SURGERY.code(),
                              "the training record of this case has the entry %s of %s, which would lie before the surgery"
                                  .formatted(entry.id(), entry.day()))
                          .withLimit("at the latest " + entry.day())));
            });
  }

  /** An entry and its earliest day, where it was. */
  private record Dated(String id, LocalDate day) {}

  private Optional<Dated> firstBefore(LocalDate surgery) {
    return writing.sessions(clinic).between(caseId, Instant.EPOCH, END, MOST).stream()
        .map(CaseRevision::dated)
        .filter(entry -> entry.day().isBefore(surgery))
        .min(Comparator.comparing(Dated::day));
  }

  private static Dated dated(SentEntry stored) {
    Session session = SessionHistory.read(stored).session();
    LocalDate day =
        session.entry() instanceof Entry.RestDays rest
            ? rest.days().stream().min(Comparator.naturalOrder()).orElse(session.performedOn())
            : session.performedOn();
    return new Dated(session.id(), day);
  }

  private boolean hasRecords() {
    return writing.newestBattery(clinic, caseId, END).isPresent()
        || !writing.sessions(clinic).page(caseId, Optional.empty(), 1).isEmpty();
  }

  private Recorded insert(int revision, JsonNode json, Document content, Recorded.Novelty novelty) {
    ObjectNode document = Records.object();
    document.put("schemaVersion", json.path("schemaVersion").asString());
    document.put("caseId", caseId);
    document.put("revision", revision);
    document.put("receivedAt", now.toString());
    document.put("sha256", content.sha256());
    document.set("case", json);
    Document stored = Document.of(document);
    StoredCase row = new StoredCase(clinic, caseId, revision, now, stored.sha256(), stored.bytes());
    writing.cases().insert(row);
    writing.cases().insertFacts(row, facts(Records.kneeCase(row)));
    writing.audit().nameSubject(clinic, caseId, revision, json.path("subject").asString());
    return new Recorded(caseId, stored, novelty);
  }

  private static CaseFacts facts(KneeCase kneeCase) {
    return new CaseFacts(
        kneeCase.sex().code(), kneeCase.birthYear(), kneeCase.graft(), kneeCase.surgeryDate());
  }
}
