package evenside.readiness.recording;

import com.fasterxml.uuid.Generators;
import com.fasterxml.uuid.NoArgGenerator;
import evenside.criteria.CriteriaSet;
import evenside.document.Document;
import evenside.intake.CaseReader;
import evenside.intake.Checked;
import evenside.intake.Intake;
import evenside.knee.KneeCase;
import evenside.ledger.Ledger;
import evenside.ledger.Proofs;
import evenside.limb.Side;
import evenside.readiness.computing.DecisionMaker;
import evenside.readiness.computing.Published;
import evenside.readiness.computing.Scoring;
import evenside.schemas.StrictJson;
import evenside.store.Position;
import evenside.store.Reading;
import evenside.store.Store;
import evenside.store.StoredCase;
import evenside.store.StoredDecision;
import evenside.training.Session;
import java.time.Instant;
import java.time.InstantSource;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import java.util.function.Predicate;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** What all use cases share: acceptance, criteria sets, identifiers, time and pages. */
public final class Records {
  /** One for all: each id is later than all before it. */
  private static final NoArgGenerator IDS = Generators.timeBasedEpochGenerator();

  private final Published published;
  private final Scoring scoring;
  private final DecisionMaker maker;
  private final Store store;
  private final Ledger ledger;
  private final InstantSource clock;
  private final Predicate<String> announced;
  private final Recording recording;

  /**
   * What use cases over one contract and one store share.
   *
   * @param announced whether somebody is to be told of the decisions of a clinic
   */
  public Records(
      Published published,
      Store store,
      Ledger ledger,
      InstantSource clock,
      Predicate<String> announced) {
    this.published = published;
    this.scoring = new Scoring(published);
    this.maker = new DecisionMaker(scoring);
    this.ledger = ledger;
    this.store = store;
    this.clock = clock;
    this.announced = announced;
    this.recording = new Recording(store, ledger, clock);
  }

  private Records(Records same, Recording recording) {
    this.published = same.published;
    this.scoring = same.scoring;
    this.maker = same.maker;
    this.ledger = same.ledger;
    this.store = same.store;
    this.clock = same.clock;
    this.announced = same.announced;
    this.recording = recording;
  }

  /** The same, but for the way in which is recorded. */
  public Records with(Recording other) {
    return new Records(this, other);
  }

  public Published published() {
    return published;
  }

  public Scoring scoring() {
    return scoring;
  }

  /** Computes decisions. */
  public DecisionMaker maker() {
    return maker;
  }

  public Ledger ledger() {
    return ledger;
  }

  public Store store() {
    return store;
  }

  /** Writes what is to be recorded. */
  public Recording recording() {
    return recording;
  }

  public InstantSource clock() {
    return clock;
  }

  /** Whether somebody is to be told of the decisions of a clinic. */
  public boolean announces(String clinic) {
    return announced.test(clinic);
  }

  public String schemaVersion() {
    return published.contract().schemaVersion();
  }

  /** Now, to the millisecond, so that what is shown is what is kept. */
  public Instant now() {
    return now(clock);
  }

  static Instant now(InstantSource clock) {
    return clock.instant().truncatedTo(ChronoUnit.MILLIS);
  }

  /** A new identifier, later than all before it in the order of text (UUID version 7). */
  public UUID newId() {
    return IDS.generate();
  }

  /** The check of a document that names no criteria set; refused with every fault. */
  public Checked accept(String kind, JsonNode json) {
    return accept(kind, json, new Intake.Context(now(), null, Records::namesNone));
  }

  /** The same for a battery, of a case with that operated side. */
  public Checked accept(String kind, JsonNode json, Side operated) {
    return accept(kind, json, new Intake.Context(now(), operated, Records::namesNone));
  }

  /** The same for an entry of a training record, held against other entries of its case. */
  public Checked accept(String kind, JsonNode json, KneeCase kneeCase, List<Session> others) {
    return accept(
        kind,
        json,
        new Intake.Context(
            now(),
            kneeCase.operatedSide(),
            kneeCase.surgeryDate(),
            Records::namesNone,
            Optional.of(others)));
  }

  /** The check of a document that may name a criteria set; refused with every fault. */
  public Checked accept(String kind, JsonNode json, ClinicSets sets) {
    return accept(kind, json, new Intake.Context(now(), null, sets::find));
  }

  private static Optional<CriteriaSet> namesNone(String name) {
    throw new IllegalStateException("a document of this kind names " + name);
  }

  private Checked accept(String kind, JsonNode json, Intake.Context context) {
    Checked checked = published.intake().check(kind, json, context);
    if (!checked.valid()) {
      throw Refused.faulty(checked.faults());
    }
    return checked;
  }

  /** The criteria sets that a clinic can use, each looked up by itself. */
  public ClinicSets sets(String clinic) {
    return new ClinicSets(
        published,
        (id, version) -> store.read(reading -> reading.criteriaSet(clinic, id, version)));
  }

  /** The same within a transaction. */
  public ClinicSets sets(Reading reading, String clinic) {
    return new ClinicSets(published, (id, version) -> reading.criteriaSet(clinic, id, version));
  }

  /** A decision as it is stored; refused if there is none, or it was erased. */
  public StoredDecision decision(String clinic, String id) {
    return store.read(reading -> decision(reading, clinic, id));
  }

  /** The same within a transaction. */
  public static StoredDecision decision(Reading reading, String clinic, String id) {
    return uuid(id)
        .flatMap(known -> reading.decision(clinic, known))
        .orElseThrow(() -> goneOrUnknown(reading, clinic, id, "decision"));
  }

  /** Why a record is not there: erased on purpose, or never known. */
  public static Refused goneOrUnknown(Reading reading, String clinic, String id, String what) {
    Proofs proofs = Proofs.within(reading.ledger(), clinic);
    return uuid(id).map(proofs::erased).orElse(false)
        ? Refused.because(Refusal.ERASED, "this " + what + " was erased; the ledger says so")
        : notFound(what);
  }

  /** The newest revision of a case; refused if there is none. */
  public static StoredCase known(Reading reading, String clinic, String caseId) {
    return reading.latestCase(clinic, caseId).orElseThrow(() -> notFound("case"));
  }

  /** Reads a case as it is kept. */
  public static KneeCase kneeCase(StoredCase stored) {
    return CaseReader.read(StrictJson.read(stored.document(), StrictJson.Limits.OWN).path("case"));
  }

  /** What a use case is refused with where there is no such thing. */
  public static Refused notFound(String what) {
    return Refused.because(Refusal.NOT_FOUND, "there is no such " + what);
  }

  /** The identifier, if the text is one in its one accepted form. */
  public static Optional<UUID> uuid(String text) {
    try {
      UUID id = UUID.fromString(text);
      return id.toString().equals(text) ? Optional.of(id) : Optional.empty();
    } catch (IllegalArgumentException none) {
      return Optional.empty();
    }
  }

  /** A page from one row more than it shows. */
  public static <T> Page page(
      List<T> rows, int limit, Function<T, byte[]> bytes, Function<T, Position> position) {
    List<T> shown = rows.stream().limit(limit).toList();
    Optional<String> next =
        rows.size() > limit
            ? Optional.of(position.apply(shown.get(shown.size() - 1)).text())
            : Optional.empty();
    return new Page(
        shown.stream().map(row -> Document.ofCanonical(bytes.apply(row))).toList(),
        shown.stream().map(row -> position.apply(row).id().toString()).toList(),
        next);
  }

  /** A new JSON object. */
  public static ObjectNode object() {
    return JsonNodeFactory.instance.objectNode();
  }
}
