package evenside.readiness;

import evenside.assessment.AssessedBattery;
import evenside.criteria.CriteriaSet;
import evenside.decision.Decision;
import evenside.decision.Engine;
import evenside.decision.RepeatLooks;
import evenside.document.AssessmentDocument;
import evenside.document.Document;
import evenside.intake.CaseReader;
import evenside.intake.Checked;
import evenside.intake.Intake;
import evenside.intake.SessionReader;
import evenside.knee.KneeCase;
import evenside.limb.Side;
import evenside.readiness.cases.AskedIndices;
import evenside.readiness.cases.Unusual;
import evenside.readiness.computing.AdviceQuestion;
import evenside.readiness.computing.DecisionRequest;
import evenside.readiness.computing.Published;
import evenside.readiness.computing.Scoring;
import evenside.readiness.decision.CriteriaSets;
import evenside.readiness.recording.Records;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.schemas.Contract;
import evenside.schemas.Fault;
import evenside.training.Session;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * The use cases that need no store and record nothing: checking a document, scoring an inline case,
 * looking up the published reference.
 */
public final class Desk {
  private final Published published;
  private final Scoring scoring;
  private final InstantSource clock;

  Desk(Published published, Scoring scoring, InstantSource clock) {
    this.published = published;
    this.scoring = scoring;
    this.clock = clock;
  }

  /** A desk by itself, for work offline. */
  public static Desk of(Contract contract, InstantSource clock) {
    Published published = new Published(contract);
    return new Desk(published, new Scoring(published), clock);
  }

  /** The published contract. */
  public Contract contract() {
    return published.contract();
  }

  /**
   * Checks a document and stores nothing.
   *
   * @throws Refused {@link Refusal#NOT_FOUND} if there is no such kind
   */
  public CheckReport check(String kind, JsonNode document) {
    if (!published.contract().kinds().contains(kind)) {
      throw Refused.because(Refusal.NOT_FOUND, "there is no kind of document of that name");
    }
    Checked checked = checked(kind, document);
    if (checked.valid() && kind.equals("battery")) {
      Side side = Side.of(document.path("operatedSide").asString());
      AssessedBattery assessed = scoring.battery("battery", document, side);
      List<Fault> warnings = Unusual.warnings(assessed, JsonPointer.empty(), checked.warnings());
      checked = new Checked(checked.faults(), warnings);
    }
    return CheckReport.of(kind, published.contract().schemaVersion(), checked);
  }

  /**
   * Scores an inline case with its batteries against one or several criteria sets, side by side.
   *
   * @throws Refused {@link Refusal#INVALID} with every fault
   */
  public Document assess(JsonNode request) {
    Checked checked = checked("assessment-request", request);
    if (!checked.valid()) {
      throw Refused.faulty(checked.faults());
    }
    KneeCase kneeCase = CaseReader.read(request.path("case"));
    List<AssessedBattery> batteries = new ArrayList<>();
    JsonNode sent = request.path("batteries");
    for (int i = 0; i < sent.size(); i++) {
      batteries.add(scoring.battery("/batteries/" + i, sent.path(i), kneeCase.operatedSide()));
    }
    List<Session> sessions = sessions(request.path("sessions"));
    LocalDate asOf = DecisionRequest.asOf(request, now(), newestOffset(batteries));
    RepeatLooks looks = looks(batteries, asOf);
    List<Decision> decisions = new ArrayList<>();
    for (JsonNode reference : request.path("criteriaSets")) {
      CriteriaSet set = published.set(Intake.name(reference)).orElseThrow();
      decisions.add(
          scoring.decide(
              set,
              kneeCase,
              batteries,
              sessions,
              asOf,
              DecisionRequest.maxAgeDays(request),
              looks));
    }
    String version = published.contract().schemaVersion();
    Document advice =
        sessions.isEmpty()
            ? null
            : published
                .advising()
                .document(null, kneeCase, sessions, asOf, AdviceQuestion.TODAY, version);
    return AssessmentDocument.of(
        new AssessmentDocument.Found(
            version, dated(batteries, sent), AskedIndices.of(request), decisions, advice));
  }

  private static List<AssessmentDocument.Dated> dated(
      List<AssessedBattery> batteries, JsonNode sent) {
    List<AssessmentDocument.Dated> dated = new ArrayList<>();
    for (int i = 0; i < batteries.size(); i++) {
      String performedAt = sent.path(i).path("performedAt").asString();
      dated.add(new AssessmentDocument.Dated(performedAt, batteries.get(i)));
    }
    return dated;
  }

  private static RepeatLooks looks(List<AssessedBattery> batteries, LocalDate asOf) {
    return RepeatLooks.among(
        batteries.stream().map(assessed -> assessed.battery().performedAt()).toList(), asOf);
  }

  private static List<Session> sessions(JsonNode sent) {
    List<Session> sessions = new ArrayList<>();
    for (int i = 0; i < sent.size(); i++) {
      sessions.add(SessionReader.read("/sessions/" + i, sent.path(i)));
    }
    return sessions;
  }

  private static ZoneOffset newestOffset(List<AssessedBattery> batteries) {
    return batteries.stream()
        .map(assessed -> assessed.battery().performedAt())
        .max(OffsetDateTime::compareTo)
        .map(OffsetDateTime::getOffset)
        .orElse(ZoneOffset.UTC);
  }

  /** Version of the rules of computation, as decisions carry it. */
  public String engineVersion() {
    return Engine.VERSION;
  }

  /** The catalogue of measures. */
  public Document measures() {
    return Document.of(published.contract().catalogue("measures"));
  }

  /**
   * One measure with its published errors and sources.
   *
   * @throws Refused {@link Refusal#NOT_FOUND} if the catalogue has no such measure
   */
  public Document measure(String code) {
    return new MeasureSheet(published.contract())
        .of(code)
        .orElseThrow(() -> Refused.because(Refusal.NOT_FOUND, "the catalogue has no such measure"));
  }

  /** The published criteria sets, by name, milestone and source. */
  public Document criteriaSets() {
    return Document.of(CriteriaSets.published(published));
  }

  /**
   * One version of a published criteria set.
   *
   * @throws Refused {@link Refusal#NOT_FOUND} if there is none
   */
  public Document criteriaSet(String id, String version) {
    return published
        .setDocument(id + "/" + version)
        .orElseThrow(() -> Refused.because(Refusal.NOT_FOUND, "there is no such criteria set"));
  }

  /** The published progressions, by name and what they are for. */
  public Document progressions() {
    ObjectNode json = Records.object();
    json.put("schemaVersion", published.contract().schemaVersion());
    ArrayNode sets = json.putArray("progressions");
    for (JsonNode set : published.contract().progressions()) {
      ObjectNode entry = sets.addObject();
      for (String member :
          List.of("id", "version", "title", "appliesTo", "use", "basis", "mark", "verified")) {
        entry.set(member, set.path(member));
      }
      String name = set.path("id").asString() + "/" + set.path("version").asString();
      entry.put("sha256", published.training().document(name).orElseThrow().sha256());
    }
    return Document.of(json);
  }

  /**
   * One version of a published progression.
   *
   * @throws Refused {@link Refusal#NOT_FOUND} if there is none
   */
  public Document progression(String id, String version) {
    return published
        .training()
        .document(id + "/" + version)
        .orElseThrow(() -> Refused.because(Refusal.NOT_FOUND, "there is no such progression"));
  }

  /** The exercises with their usual dose. */
  public Document exercises() {
    return Document.of(published.contract().catalogue("exercises"));
  }

  private Checked checked(String kind, JsonNode document) {
    @Nullable Side unknown = null;
    return published
        .intake()
        .check(kind, document, new Intake.Context(now(), unknown, published::set));
  }

  private Instant now() {
    return clock.instant();
  }
}
