package evenside.readiness.training;

import evenside.document.Document;
import evenside.intake.Checked;
import evenside.intake.SessionReader;
import evenside.knee.KneeCase;
import evenside.readiness.computing.AdviceQuestion;
import evenside.readiness.recording.IdempotencyKey;
import evenside.readiness.recording.Page;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Recording;
import evenside.readiness.recording.Records;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.readiness.recording.Sent;
import evenside.readiness.recording.UnchangedCase;
import evenside.schemas.Fault;
import evenside.store.Position;
import evenside.store.Reading;
import evenside.store.StoredCase;
import evenside.store.StoredSession;
import evenside.training.Session;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import tools.jackson.databind.JsonNode;

/** Recording and looking up entries of a training record, and the advice on what comes next. */
public final class Sessions {
  private static final String KIND = "session";

  private final Records records;

  public Sessions(Records records) {
    this.records = records;
  }

  /**
   * Records an entry. The reply carries the advice on all entries known at that moment. The
   * sender's own record id, if given, makes a repeat harmless for ever.
   */
  public Recorded add(String clinic, String caseId, JsonNode json, Optional<IdempotencyKey> key) {
    return records
        .recording()
        .record(clinic, key, this::get, reading -> prepare(reading, clinic, caseId, json));
  }

  private Recording.Prepared prepare(Reading reading, String clinic, String caseId, JsonNode json) {
    StoredCase seen = Records.known(reading, clinic, caseId);
    KneeCase kneeCase = Records.kneeCase(seen);
    SessionHistory history = new SessionHistory(reading, clinic, caseId);
    Checked checked = records.accept(KIND, json, kneeCase, around(history, json));
    Sent sent = Sent.of(caseId, json);
    Optional<Recorded> twin = twin(reading, clinic, sent);
    if (twin.isPresent()) {
      return twin.get();
    }
    UUID id = records.newId();
    Instant now = records.now();
    Session session = SessionReader.read(id.toString(), json);
    LocalDate asOf = asOf(now, session);
    List<Session> all = new ArrayList<>(SessionHistory.sessions(history.asOf(asOf)));
    all.add(session);
    Document advice = advice(caseId, new Known(kneeCase, all), asOf, AdviceQuestion.TODAY);
    Document document = document(id, caseId, now, sent.content(), advice, checked.warnings());
    StoredSession stored =
        new StoredSession(
            clinic,
            id,
            caseId,
            sent.recordId(),
            sent.content().sha256(),
            session.performedAt().toInstant(),
            now,
            records.published().redFlagWatch().concerns(session),
            document.bytes());
    return new Recording.Draft(
        KIND,
        new Recorded(id.toString(), document, Recorded.Novelty.CREATED),
        Optional.empty(),
        writing -> {
          UnchangedCase.hold(writing, seen);
          writing.insertSession(stored, sent.content().bytes());
        },
        later -> twin(later, clinic, sent));
  }

  /** An entry with the advice that was given when it came in. */
  public Document get(String clinic, String sessionId) {
    return records
        .store()
        .read(reading -> Records.uuid(sessionId).flatMap(id -> reading.sessions(clinic).byId(id)))
        .map(stored -> Document.ofCanonical(stored.document()))
        .orElseThrow(() -> Records.notFound(KIND));
  }

  /** The entries of a case, newest first. */
  public Page list(String clinic, String caseId, Optional<String> after, int limit) {
    return records
        .store()
        .read(
            reading -> {
              Records.known(reading, clinic, caseId);
              List<StoredSession> rows =
                  reading.sessions(clinic).page(caseId, after.flatMap(Position::parse), limit + 1);
              return Records.page(rows, limit, StoredSession::document, StoredSession::position);
            });
  }

  /**
   * The advice on what comes next.
   *
   * @throws Refused {@link Refusal#NOT_FOUND} if there is no such case, or no such progression
   */
  public Document advice(String clinic, String caseId, AdviceQuestion question) {
    Instant now = records.now();
    LocalDate asOf = question.asOf().orElse(latestToday(now));
    Known known = known(clinic, caseId, asOf);
    question.sets().forEach(this::demandProgression);
    LocalDate shown =
        question
            .asOf()
            .orElseGet(
                () ->
                    known.sessions().stream()
                        .map(Session::performedOn)
                        .reduce(today(now), (a, b) -> a.isAfter(b) ? a : b));
    return advice(caseId, known, shown, question);
  }

  private void demandProgression(String name) {
    if (records.published().training().document(name).isEmpty()) {
      throw Refused.because(Refusal.NOT_FOUND, "there is no progression " + name);
    }
  }

  /** The entries that one is held against: those of about its time, and those that it names. */
  private static List<Session> around(SessionHistory history, JsonNode json) {
    List<String> named = new ArrayList<>();
    JsonNode entry = json.path("entry");
    named.add(entry.path("kneeCheck").path("completes").asString(""));
    entry.path("clearance").path("clears").forEach(one -> named.add(one.asString("")));
    named.removeIf(String::isEmpty);
    return instant(json).map(at -> history.around(at, named)).orElse(List.of());
  }

  /** Not checked yet: a year of more than four digits is refused later, and has no days around. */
  private static Optional<Instant> instant(JsonNode json) {
    try {
      return Optional.of(OffsetDateTime.parse(json.path("performedAt").asString("")))
          .filter(time -> time.getYear() >= 1 && time.getYear() <= 9999)
          .map(OffsetDateTime::toInstant);
    } catch (DateTimeException invalid) {
      return Optional.empty();
    }
  }

  /** A case and the entries of its training record. */
  private record Known(KneeCase kneeCase, List<Session> sessions) {}

  private Known known(String clinic, String caseId, LocalDate asOf) {
    return records
        .store()
        .read(
            reading ->
                new Known(
                    Records.kneeCase(Records.known(reading, clinic, caseId)),
                    SessionHistory.sessions(
                        new SessionHistory(reading, clinic, caseId).asOf(asOf))));
  }

  private Document advice(String caseId, Known known, LocalDate asOf, AdviceQuestion question) {
    return records
        .published()
        .advising()
        .document(
            caseId, known.kneeCase(), known.sessions(), asOf, question, records.schemaVersion());
  }

  /** Today on the sender's calendar, or the entry's own day where its clock is ahead. */
  private static LocalDate asOf(Instant now, Session session) {
    LocalDate today = LocalDate.ofInstant(now, session.performedAt().getOffset());
    return session.performedOn().isAfter(today) ? session.performedOn() : today;
  }

  private static LocalDate today(Instant now) {
    return LocalDate.ofInstant(now, ZoneOffset.UTC);
  }

  private static LocalDate latestToday(Instant now) {
    return LocalDate.ofInstant(now, ZoneOffset.ofHours(14));
  }

  private Document document(
      UUID id,
      String caseId,
      Instant now,
      Document content,
      Document advice,
      List<Fault> warnings) {
    return Document.written(
        json -> {
          json.object().name("advice").document(advice).put("caseId", caseId);
          json.put("receivedAt", now.toString()).put("schemaVersion", records.schemaVersion());
          json.name("session").document(content).put("sessionId", id.toString());
          json.put("sha256", content.sha256()).name("warnings");
          json.array(warnings, (to, warning) -> to.tree(warning.toJson())).end();
        });
  }

  /** The record that was made when the same was sent before. */
  private static Optional<Recorded> twin(Reading reading, String clinic, Sent sent) {
    return sent.twin(id -> reading.sessions(clinic).byRecordId(id), "an entry");
  }
}
