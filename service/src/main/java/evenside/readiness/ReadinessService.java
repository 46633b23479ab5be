package evenside.readiness;

import com.fasterxml.uuid.Generators;
import com.fasterxml.uuid.NoArgGenerator;
import evenside.assessment.AssessedBattery;
import evenside.criteria.CriteriaSet;
import evenside.document.Document;
import evenside.intake.CaseReader;
import evenside.intake.Checked;
import evenside.intake.Intake;
import evenside.knee.KneeCase;
import evenside.limb.Side;
import evenside.schemas.Contract;
import evenside.schemas.Fault;
import evenside.schemas.StrictJson;
import evenside.store.DecisionFilter;
import evenside.store.Position;
import evenside.store.Reading;
import evenside.store.Remembered;
import evenside.store.Store;
import evenside.store.StoreConflict;
import evenside.store.StoredBattery;
import evenside.store.StoredCase;
import evenside.store.StoredDecision;
import evenside.store.Writing;
import java.time.Instant;
import java.time.InstantSource;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * The use cases. Every record belongs to a clinic, and what is not the clinic's is not there for
 * it.
 *
 * <p>Errors: {@link Refused}, with every fault, and then nothing is stored. What a method returned
 * as recorded is committed and on disk. Safe for use by many threads.
 */
public final class ReadinessService {
  private static final String BATTERY = "battery";
  private static final String DECISION = "decision";

  private final Published published;
  private final Scoring scoring;
  private final Store store;
  private final InstantSource clock;
  private final NoArgGenerator ids = Generators.timeBasedEpochGenerator();

  private ReadinessService(Published published, Store store, InstantSource clock) {
    this.published = published;
    this.scoring = new Scoring(published);
    this.store = store;
    this.clock = clock;
  }

  /** The use cases over a published contract and a store. */
  public static ReadinessService of(Contract contract, Store store, InstantSource clock) {
    return new ReadinessService(new Published(contract), store, clock);
  }

  /** What needs no store: checks, assessments, reference. */
  public Desk desk() {
    return new Desk(published, scoring, clock);
  }

  /** Records a case, or a new revision of it. */
  public Recorded putCase(String clinic, String caseId, JsonNode json, Optional<String> ifMatch) {
    accept("case", json, null);
    Document content = Document.of(json);
    return retried(
        () ->
            store.write(
                writing ->
                    new CaseRevision(writing, clinic, caseId, now()).put(json, content, ifMatch)));
  }

  /** The newest revision of a case. */
  public Document caseRecord(String clinic, String caseId) {
    return Document.ofCanonical(store.read(reading -> known(reading, clinic, caseId).document()));
  }

  /** Records a battery. The sender's own record id, if given, makes a repeat harmless for ever. */
  public Recorded addBattery(
      String clinic, String caseId, JsonNode json, Optional<IdempotencyKey> key) {
    Optional<Recorded> earlier = earlier(clinic, key, this::battery);
    if (earlier.isPresent()) {
      return earlier.get();
    }
    Side operated = kneeCase(store.read(reading -> known(reading, clinic, caseId))).operatedSide();
    Checked checked = accept(BATTERY, json, operated);
    Document content = Document.of(json);
    Optional<String> recordId =
        Optional.of(json.path("recordId").asString("")).filter(id -> !id.isEmpty());
    Optional<Recorded> twin = recordId.flatMap(id -> twin(clinic, caseId, id, content));
    if (twin.isPresent()) {
      return twin.get();
    }
    UUID id = ids.generate();
    AssessedBattery assessed = scoring.battery(id.toString(), json, operated);
    List<Fault> warnings = Unusual.warnings(assessed, JsonPointer.empty(), checked.warnings());
    Instant now = now();
    Document document =
        BatteryRecord.document(version(), id, caseId, now, content, json, assessed, warnings);
    StoredBattery stored =
        new StoredBattery(
            clinic,
            id,
            caseId,
            recordId,
            content.sha256(),
            OffsetDateTime.parse(json.path("performedAt").asString()).toInstant(),
            now,
            document.bytes());
    return record(
        clinic,
        key,
        BATTERY,
        new Recorded(id.toString(), document, Recorded.Novelty.CREATED),
        writing -> writing.insertBattery(stored, EvidenceRows.of(assessed)),
        this::battery,
        () -> recordId.flatMap(record -> twin(clinic, caseId, record, content)));
  }

  /** A battery with its computed symmetry. */
  public Document battery(String clinic, String batteryId) {
    return store
        .read(reading -> uuid(batteryId).flatMap(id -> reading.battery(clinic, id)))
        .map(stored -> Document.ofCanonical(stored.document()))
        .orElseThrow(() -> notFound(BATTERY));
  }

  /** The batteries of a case, newest first. */
  public Page batteries(String clinic, String caseId, Optional<String> after, int limit) {
    return store.read(
        reading -> {
          known(reading, clinic, caseId);
          List<StoredBattery> rows =
              reading.batteries(clinic, caseId, after.flatMap(Position::parse), limit + 1);
          return page(rows, limit, StoredBattery::document, StoredBattery::position);
        });
  }

  /** Decides on a case for a milestone or by a named set, and records the decision. */
  public Recorded decide(
      String clinic, String caseId, JsonNode request, Optional<IdempotencyKey> key) {
    Optional<Recorded> earlier = earlier(clinic, key, this::decision);
    if (earlier.isPresent()) {
      return earlier.get();
    }
    accept("decision-request", request, null);
    UUID id = ids.generate();
    Instant now = now();
    StoredDecision decision =
        store.read(
            reading -> {
              StoredCase stored = known(reading, clinic, caseId);
              DecisionRequest asked = DecisionRequest.read(request, now, set(request));
              return new DecisionRecord(scoring, version(), reading, stored).decide(id, asked, now);
            });
    Document document = Document.ofCanonical(decision.document());
    return record(
        clinic,
        key,
        DECISION,
        new Recorded(id.toString(), document, Recorded.Novelty.CREATED),
        writing -> writing.insertDecision(decision),
        this::decision,
        Optional::empty);
  }

  /** A decision, as it was recorded. */
  public Document decision(String clinic, String decisionId) {
    return store
        .read(reading -> uuid(decisionId).flatMap(id -> reading.decision(clinic, id)))
        .map(stored -> Document.ofCanonical(stored.document()))
        .orElseThrow(() -> notFound(DECISION));
  }

  /** Decisions that pass the filter, newest first. */
  public Page decisions(String clinic, DecisionFilter filter, Optional<String> after, int limit) {
    return store.read(
        reading -> {
          List<StoredDecision> rows =
              reading.decisions(clinic, filter, after.flatMap(Position::parse), limit + 1);
          return page(rows, limit, StoredDecision::document, StoredDecision::position);
        });
  }

  /** True if the record can be reached. */
  public boolean ready() {
    try {
      return store.read(reading -> reading.criteriaSets("")).isEmpty();
    } catch (RuntimeException unreachable) {
      return false;
    }
  }

  private Checked accept(String kind, JsonNode json, @Nullable Side operated) {
    Checked checked =
        published.intake().check(kind, json, new Intake.Context(now(), operated, published::set));
    if (!checked.valid()) {
      throw Refused.faulty(checked.faults());
    }
    return checked;
  }

  private CriteriaSet set(JsonNode request) {
    JsonNode named = request.path("criteriaSet");
    Optional<CriteriaSet> set =
        named.isObject()
            ? published.set(Intake.name(named))
            : published.usualSet(request.path("milestone").asString());
    return set.orElseThrow(() -> notFound("criteria set"));
  }

  /**
   * Writes a record, remembering the request first, so that of many equal requests at once one gets
   * through and the others are answered with its record.
   */
  private Recorded record(
      String clinic,
      Optional<IdempotencyKey> key,
      String kind,
      Recorded recorded,
      java.util.function.Consumer<Writing> insert,
      java.util.function.BiFunction<String, String, Document> find,
      java.util.function.Supplier<Optional<Recorded>> twin) {
    try {
      return store.write(
          writing -> {
            key.ifPresent(
                k ->
                    writing.remember(
                        new Remembered(
                            clinic, k.key(), k.fingerprint(), kind, recorded.id(), now())));
            insert.accept(writing);
            return recorded;
          });
    } catch (StoreConflict conflict) {
      return switch (conflict.kind()) {
        case ALREADY_REMEMBERED -> earlier(clinic, key, find).orElseThrow(() -> conflict);
        case RECORD_ID_TAKEN -> twin.get().orElseThrow(() -> conflict);
        case BUSY ->
            throw Refused.because(
                Refusal.KEY_IN_FLIGHT, "an equal request is still running; ask again");
        case CASE_REVISION_TAKEN, CRITERIA_SET_TAKEN -> throw conflict;
      };
    }
  }

  private Optional<Recorded> earlier(
      String clinic,
      Optional<IdempotencyKey> key,
      java.util.function.BiFunction<String, String, Document> find) {
    if (key.isEmpty()) {
      return Optional.empty();
    }
    Optional<Remembered> remembered =
        store.read(reading -> reading.remembered(clinic, key.get().key()));
    if (remembered.isEmpty()) {
      return Optional.empty();
    }
    if (!remembered.get().fingerprint().equals(key.get().fingerprint())) {
      throw Refused.because(
          Refusal.KEY_REUSED, "this idempotency key was used for another request");
    }
    String id = remembered.get().recordId();
    return Optional.of(new Recorded(id, find.apply(clinic, id), Recorded.Novelty.REPLAYED));
  }

  /** The battery with the same record id; refused if its content differs. */
  private Optional<Recorded> twin(String clinic, String caseId, String recordId, Document content) {
    Optional<StoredBattery> found =
        store.read(reading -> reading.batteryByRecordId(clinic, recordId));
    if (found.isEmpty()) {
      return Optional.empty();
    }
    StoredBattery stored = found.get();
    if (!stored.caseId().equals(caseId) || !stored.contentSha256().equals(content.sha256())) {
      throw Refused.because(
          Refusal.CONFLICT, "a battery with this recordId and other content is recorded already");
    }
    return Optional.of(
        new Recorded(
            stored.id().toString(),
            Document.ofCanonical(stored.document()),
            Recorded.Novelty.UNCHANGED));
  }

  /** Two writers of one case: the second looks again at what the first left. */
  private static Recorded retried(java.util.function.Supplier<Recorded> write) {
    try {
      return write.get();
    } catch (StoreConflict conflict) {
      return write.get();
    }
  }

  private static StoredCase known(Reading reading, String clinic, String caseId) {
    return reading.latestCase(clinic, caseId).orElseThrow(() -> notFound("case"));
  }

  static KneeCase kneeCase(StoredCase stored) {
    return CaseReader.read(StrictJson.read(stored.document(), StrictJson.Limits.OWN).path("case"));
  }

  private static Refused notFound(String what) {
    return Refused.because(Refusal.NOT_FOUND, "there is no such " + what);
  }

  private static Optional<UUID> uuid(String text) {
    try {
      UUID id = UUID.fromString(text);
      return id.toString().equals(text) ? Optional.of(id) : Optional.empty();
    } catch (IllegalArgumentException none) {
      return Optional.empty();
    }
  }

  private static <T> Page page(
      List<T> rows, int limit, Function<T, byte[]> bytes, Function<T, Position> position) {
    List<T> shown = rows.stream().limit(limit).toList();
    Optional<String> next =
        rows.size() > limit
            ? Optional.of(position.apply(shown.get(shown.size() - 1)).text())
            : Optional.empty();
    return new Page(
        shown.stream().map(row -> Document.ofCanonical(bytes.apply(row))).toList(), next);
  }

  private String version() {
    return published.contract().schemaVersion();
  }

  private Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MILLIS);
  }

  /** A new JSON object. */
  static ObjectNode object() {
    return JsonNodeFactory.instance.objectNode();
  }
}
