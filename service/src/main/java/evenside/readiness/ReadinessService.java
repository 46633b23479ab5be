package evenside.readiness;

import evenside.ledger.Ledger;
import evenside.readiness.audit.Evidences;
import evenside.readiness.audit.LedgerDesk;
import evenside.readiness.audit.Replays;
import evenside.readiness.audit.Trail;
import evenside.readiness.cases.Batteries;
import evenside.readiness.cases.Cases;
import evenside.readiness.cases.Corrections;
import evenside.readiness.cases.Erasures;
import evenside.readiness.computing.Published;
import evenside.readiness.decision.CriteriaSets;
import evenside.readiness.decision.Decisions;
import evenside.readiness.decision.Determinations;
import evenside.readiness.recording.Records;
import evenside.readiness.recording.Refused;
import evenside.readiness.recovery.Plans;
import evenside.readiness.recovery.Recovery;
import evenside.readiness.training.Sessions;
import evenside.schemas.Contract;
import evenside.store.Store;
import java.time.InstantSource;
import java.util.UUID;
import java.util.function.Predicate;

/**
 * The use cases over one published contract and one store. Every record belongs to a clinic, and
 * what is not the clinic's is not there for it.
 *
 * <p>Errors: {@link Refused}, with every fault, and then nothing is stored. What a method returned
 * as recorded is committed and on disk. Safe for use by many threads.
 */
public final class ReadinessService {
  private final Records records;
  private final Desk desk;
  private final Cases cases;
  private final Batteries batteries;
  private final Decisions decisions;
  private final Determinations determinations;
  private final Replays replays;
  private final Evidences evidence;
  private final Corrections corrections;
  private final Erasures erasures;
  private final Trail trail;
  private final Recovery recovery;
  private final Plans plans;
  private final Cohorts cohorts;
  private final LedgerDesk ledger;
  private final CriteriaSets criteriaSets;
  private final Sessions sessions;
  private final Announcements announcements;
  private final Jobs jobs;
  private final int smallestCell;

  private ReadinessService(Records records, int smallestCell) {
    this.records = records;
    this.desk = new Desk(records.published(), records.scoring(), records.clock());
    this.cases = new Cases(records);
    this.batteries = new Batteries(records);
    this.decisions = new Decisions(records);
    this.determinations = new Determinations(records);
    this.replays = new Replays(records);
    this.evidence = new Evidences(records);
    this.corrections = new Corrections(records);
    this.erasures = new Erasures(records);
    this.trail = new Trail(records);
    this.recovery = new Recovery(records);
    this.plans = new Plans(records);
    this.cohorts = new Cohorts(records, smallestCell);
    this.ledger = new LedgerDesk(records);
    this.criteriaSets = new CriteriaSets(records);
    this.sessions = new Sessions(records);
    this.announcements = new Announcements(records);
    this.jobs = new Jobs(records);
    this.smallestCell = smallestCell;
  }

  /** The use cases over a published contract and a store, without a ledger. */
  public static ReadinessService of(Contract contract, Store store, InstantSource clock) {
    return of(contract, store, Ledger.off(store), clock);
  }

  /** The use cases over a published contract, a store and the ledger of what is recorded in it. */
  public static ReadinessService of(
      Contract contract, Store store, Ledger ledger, InstantSource clock) {
    return of(contract, store, ledger, clock, Cohorts.SMALLEST_CELL);
  }

  /**
   * The same, with another limit on what a cohort shows.
   *
   * @param smallestCell fewest people a shown count may have; 1 hides nothing
   */
  public static ReadinessService of(
      Contract contract, Store store, Ledger ledger, InstantSource clock, int smallestCell) {
    return of(contract, store, ledger, clock, smallestCell, clinic -> false);
  }

  /**
   * The same, keeping what receivers are to be told.
   *
   * @param announced whether a clinic has a receiver that is to be told of its decisions
   */
  public static ReadinessService of(
      Contract contract,
      Store store,
      Ledger ledger,
      InstantSource clock,
      int smallestCell,
      Predicate<String> announced) {
    Records records = new Records(new Published(contract), store, ledger, clock, announced);
    return new ReadinessService(records, smallestCell);
  }

  /**
   * The same use cases over the same record, for recording with much in hand at once: records that
   * wait at the same time share a commit.
   */
  public ReadinessService grouped() {
    return new ReadinessService(records.with(records.recording().grouped()), smallestCell);
  }

  /**
   * The same use cases for one line of a job: nothing is recorded once the line no longer waits, as
   * its case was erased with all that was to come.
   */
  public ReadinessService ofLine(String clinic, UUID job, int line) {
    return new ReadinessService(
        records.with(records.recording().ofLine(clinic, job, line)), smallestCell);
  }

  /** Bulk work that goes on after the reply. */
  public Jobs jobs() {
    return jobs;
  }

  /** What needs no store: checks, assessments, reference. */
  public Desk desk() {
    return desk;
  }

  public Cases cases() {
    return cases;
  }

  public Batteries batteries() {
    return batteries;
  }

  public Decisions decisions() {
    return decisions;
  }

  /** What clinicians said on decisions. */
  public Determinations determinations() {
    return determinations;
  }

  /** Past decisions computed again. */
  public Replays replays() {
    return replays;
  }

  /** The proof of past decisions. */
  public Evidences evidence() {
    return evidence;
  }

  /** How batteries were corrected. */
  public Corrections corrections() {
    return corrections;
  }

  /** Erasing cases. */
  public Erasures erasures() {
    return erasures;
  }

  /** Who read which decision. */
  public Trail trail() {
    return trail;
  }

  /** The ledger behind the decisions. */
  public LedgerDesk ledger() {
    return ledger;
  }

  /** What receivers are still to be told. */
  public Announcements announcements() {
    return announcements;
  }

  /** Where cases stand, how they got there and what is missing. */
  public Recovery recovery() {
    return recovery;
  }

  /** Plans that clinicians adopted. */
  public Plans plans() {
    return plans;
  }

  /** The clinic's own numbers over its cases. */
  public Cohorts cohorts() {
    return cohorts;
  }

  public CriteriaSets criteriaSets() {
    return criteriaSets;
  }

  public Sessions sessions() {
    return sessions;
  }

  /** True if the record can be reached and takes what belongs into the ledger. */
  public boolean ready() {
    return storeAnswers() && records.ledger().trouble().isEmpty();
  }

  /** Whether the record can be reached. */
  public boolean storeAnswers() {
    try {
      records.store().read(reading -> reading.criteriaSets(""));
      return true;
    } catch (RuntimeException unreachable) {
      return false;
    }
  }
}
