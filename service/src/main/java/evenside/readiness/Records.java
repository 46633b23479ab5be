package evenside.readiness;

import com.fasterxml.uuid.Generators;
import com.fasterxml.uuid.NoArgGenerator;
import evenside.criteria.CriteriaSet;
import evenside.document.Document;
import evenside.intake.Checked;
import evenside.intake.Intake;
import evenside.knee.KneeCase;
import evenside.ledger.Appended;
import evenside.ledger.Ledger;
import evenside.ledger.LedgerRefusal;
import evenside.ledger.NewEntry;
import evenside.ledger.Receipt;
import evenside.limb.Side;
import evenside.store.Position;
import evenside.store.Reading;
import evenside.store.Remembered;
import evenside.store.Store;
import evenside.store.StoreConflict;
import evenside.store.StoredCase;
import evenside.store.StoredDecision;
import evenside.store.Writing;
import evenside.training.Session;
import java.time.Instant;
import java.time.InstantSource;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.BiFunction;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** What all use cases that record share: acceptance, idempotency, identifiers, time and pages. */
final class Records {
  private final Published published;
  private final Scoring scoring;
  private final DecisionMaker maker;
  private final Store store;
  private final Ledger ledger;
  private final InstantSource clock;
  private final Predicate<String> announced;
  private final boolean grouping;
  private final NoArgGenerator ids = Generators.timeBasedEpochGenerator();

  Records(
      Published published,
      Store store,
      Ledger ledger,
      InstantSource clock,
      Predicate<String> announced,
      boolean grouping) {
    this.grouping = grouping;
    this.published = published;
    this.scoring = new Scoring(published);
    this.maker = new DecisionMaker(scoring);
    this.ledger = ledger;
    this.store = store;
    this.clock = clock;
    this.announced = announced;
  }

  /** The same, for work of which much is in hand at once: see {@link #write}. */
  Records grouped() {
    return new Records(published, store, ledger, clock, announced, true);
  }

  Published published() {
    return published;
  }

  Scoring scoring() {
    return scoring;
  }

  /** Computes decisions. */
  DecisionMaker maker() {
    return maker;
  }

  Ledger ledger() {
    return ledger;
  }

  Store store() {
    return store;
  }

  InstantSource clock() {
    return clock;
  }

  /** Whether somebody is to be told of the decisions of a clinic. */
  boolean announces(String clinic) {
    return announced.test(clinic);
  }

  String schemaVersion() {
    return published.contract().schemaVersion();
  }

  /** Now, to the millisecond, so that what is shown is what is kept. */
  Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MILLIS);
  }

  /** A new identifier, later than all before it in the order of text (UUID version 7). */
  UUID newId() {
    return ids.generate();
  }

  /** The check of a document that is to be recorded; refused with every fault. */
  Checked accept(String clinic, String kind, JsonNode json, @Nullable Side operated) {
    return accept(kind, json, new Intake.Context(now(), operated, name -> set(clinic, name)));
  }

  /** The same for an entry of a training record, held against other entries of its case. */
  Checked accept(
      String clinic, String kind, JsonNode json, KneeCase kneeCase, List<Session> others) {
    return accept(
        kind,
        json,
        new Intake.Context(
            now(),
            kneeCase.operatedSide(),
            kneeCase.surgeryDate(),
            name -> set(clinic, name),
            Optional.of(others)));
  }

  private Checked accept(String kind, JsonNode json, Intake.Context context) {
    Checked checked = published.intake().check(kind, json, context);
    if (!checked.valid()) {
      throw Refused.faulty(checked.faults());
    }
    return checked;
  }

  /** The criteria set that a request names, or the usual one of its milestone. */
  CriteriaSet set(String clinic, JsonNode request) {
    JsonNode named = request.path("criteriaSet");
    Optional<CriteriaSet> set =
        named.isObject()
            ? set(clinic, Intake.name(named))
            : published.usualSet(request.path("milestone").asString());
    return set.orElseThrow(() -> notFound("criteria set"));
  }

  /** A published criteria set, or one of the clinic's own, by {@code id/version}. */
  Optional<CriteriaSet> set(String clinic, String name) {
    int slash = name.indexOf('/');
    return published
        .set(name)
        .or(
            () ->
                store
                    .read(
                        reading ->
                            reading.criteriaSet(
                                clinic, name.substring(0, slash), name.substring(slash + 1)))
                    .map(stored -> CriteriaSets.read(published, stored)));
  }

  /** The document of a criteria set that the clinic can use, by {@code id/version}. */
  Optional<Document> setDocument(String clinic, String name) {
    int slash = name.indexOf('/');
    return published
        .setDocument(name)
        .or(
            () ->
                store
                    .read(
                        reading ->
                            reading.criteriaSet(
                                clinic, name.substring(0, slash), name.substring(slash + 1)))
                    .map(stored -> Document.ofCanonical(stored.document())));
  }

  /**
   * A record to be made.
   *
   * @param clinic whose it is
   * @param kind what it is, as remembered with the idempotency key
   * @param made the answer if it is made
   * @param entry what the ledger says of it; empty for a record of which it says nothing
   * @param insert writes its rows
   * @param find reads the record of an earlier request by clinic and id
   * @param twin reads the record with the same identifier of the sender's, if that is what it met
   */
  record Draft(
      String clinic,
      String kind,
      Recorded made,
      Optional<Supplier<NewEntry>> entry,
      Consumer<Writing> insert,
      BiFunction<String, String, Document> find,
      Supplier<Optional<Recorded>> twin) {}

  /**
   * Writes a record, remembering the request first, so that of many equal requests at once one gets
   * through and the others are answered with its record.
   */
  Recorded record(Draft draft, Optional<IdempotencyKey> key) {
    try {
      if (draft.entry().isEmpty() || !ledger.on()) {
        return write(draft.clinic(), writing -> insert(draft, key, writing));
      }
      NewEntry entry = draft.entry().get().get();
      Appended<Recorded> appended =
          ledger.append(
              draft.clinic(),
              appending -> {
                Recorded made = insert(draft, key, appending.writing());
                appending.add(entry);
                return made;
              });
      return appended.result().with(appended.receipt());
    } catch (LedgerRefusal refusal) {
      throw Refused.because(Refusal.UNAVAILABLE, String.valueOf(refusal.getMessage()));
    } catch (StoreConflict conflict) {
      return switch (conflict.kind()) {
        case ALREADY_REMEMBERED ->
            earlier(draft.clinic(), key, draft.find()).orElseThrow(() -> conflict);
        case RECORD_ID_TAKEN, CRITERIA_SET_TAKEN -> draft.twin().get().orElseThrow(() -> conflict);
        case BUSY ->
            throw Refused.because(
                Refusal.KEY_IN_FLIGHT, "the first request with this key is still running");
        case CASE_REVISION_TAKEN, LEDGER_TAKEN, CHECKPOINT_TAKEN, CLIENT_KEY_TAKEN, JOB_TAKEN ->
            throw conflict;
        case BATTERY_REPLACED ->
            throw Refused.because(
                Refusal.CONFLICT,
                "the battery was corrected already; correct the one that took its place");
      };
    }
  }

  /**
   * Runs a transaction that adds no entry to the ledger: by itself, or, where many are written at
   * once, in one with others, so that they share a commit and a sync of the disk.
   */
  Recorded write(String clinic, Function<Writing, Recorded> work) {
    return grouping && ledger.on()
        ? ledger.append(clinic, appending -> work.apply(appending.writing())).result()
        : store.writeInTurn(work);
  }

  private Recorded insert(Draft draft, Optional<IdempotencyKey> key, Writing writing) {
    key.ifPresent(
        k -> writing.remember(remembered(draft.clinic(), k, draft.kind(), draft.made().id())));
    draft.insert().accept(writing);
    return draft.made();
  }

  /** A request that is about to be answered by making a record. */
  Remembered remembered(String clinic, IdempotencyKey key, String kind, String id) {
    return new Remembered(clinic, key.key(), key.fingerprint(), kind, id, now());
  }

  /** The answer to an earlier request with the same key; refused if that was another request. */
  Optional<Recorded> earlier(
      String clinic, Optional<IdempotencyKey> key, BiFunction<String, String, Document> find) {
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
    Recorded replayed = new Recorded(id, find.apply(clinic, id), Recorded.Novelty.REPLAYED);
    return Optional.of(replayed.with(receipt(clinic, id)));
  }

  /** Where the ledger has a record; empty if it has none, or is off. */
  Optional<Receipt> receipt(String clinic, String id) {
    return uuid(id).flatMap(known -> ledger.receipt(clinic, known));
  }

  /** A decision as it is stored; refused if there is none, or it was erased. */
  StoredDecision decision(String clinic, String id) {
    return uuid(id)
        .flatMap(known -> store.read(reading -> reading.decision(clinic, known)))
        .orElseThrow(() -> goneOrUnknown(clinic, id, "decision"));
  }

  /** Why a record is not there: erased on purpose, or never known. */
  Refused goneOrUnknown(String clinic, String id, String what) {
    boolean erased = uuid(id).map(ledger.proofs(clinic)::erased).orElse(false);
    return erased
        ? Refused.because(Refusal.ERASED, "this " + what + " was erased; the ledger says so")
        : notFound(what);
  }

  /** The newest revision of a case; refused if there is none. */
  static StoredCase known(Reading reading, String clinic, String caseId) {
    return reading.latestCase(clinic, caseId).orElseThrow(() -> notFound("case"));
  }

  static Refused notFound(String what) {
    return Refused.because(Refusal.NOT_FOUND, "there is no such " + what);
  }

  /** The identifier, if the text is one in its one accepted form. */
  static Optional<UUID> uuid(String text) {
    try {
      UUID id = UUID.fromString(text);
      return id.toString().equals(text) ? Optional.of(id) : Optional.empty();
    } catch (IllegalArgumentException none) {
      return Optional.empty();
    }
  }

  /** A page from one row more than it shows. */
  static <T> Page page(
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
  static ObjectNode object() {
    return JsonNodeFactory.instance.objectNode();
  }
}
