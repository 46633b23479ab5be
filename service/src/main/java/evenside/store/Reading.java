package evenside.store;

import evenside.store.clients.ClientKeyReading;
import evenside.store.cohort.CohortFilter;
import evenside.store.cohort.CohortSearch;
import evenside.store.evidence.EvidenceSearch;
import evenside.store.ledger.LedgerReading;
import evenside.store.work.JobReading;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;

/**
 * What a transaction can look up. Every question names the clinic, and rows of another clinic are
 * not there for it. Valid inside the transaction only.
 */
public sealed class Reading permits Writing {
  private static final String BATTERY_COLUMNS =
      "clinic, id, case_id, record_id, content_sha256, performed_at, received_at, document";

  private static final String CRITERIA_SETS =
      "select clinic, id, version, sha256, document, published_at"
          + " from criteria_set where clinic = :clinic";

  /** Names the columns that are fixed too: only then does H2 see that an index has this order. */
  private static final String BATTERY_ORDER =
      " order by clinic, case_id, performed_at desc, id desc";

  final Handle handle;

  Reading(Handle handle) {
    this.handle = handle;
  }

  /** The clock of the database server; in an embedded store that is ours. */
  public Instant clock() {
    return handle.createQuery("select current_timestamp").mapTo(Instant.class).one();
  }

  /** What can be looked up in the ledgers. */
  public LedgerReading ledger() {
    return new LedgerReading(handle);
  }

  /** Bulk work that goes on after the reply. */
  public JobReading jobs() {
    return new JobReading(handle);
  }

  /** What can be looked up of the clients' keys. */
  public ClientKeyReading clientKeys() {
    return new ClientKeyReading(handle);
  }

  /** Everything on record, for whoever goes through all of it. */
  public RecordPages pages() {
    return new RecordPages(handle);
  }

  /** What can be looked up around decisions. */
  public AuditReading audit() {
    return new AuditReading(handle);
  }

  /**
   * The newest revision of a case.
   *
   * @param clinic the clinic
   * @param caseId the case
   * @return the revision; empty where there is no such case
   */
  public Optional<StoredCase> latestCase(String clinic, String caseId) {
    return query(
            """
            select clinic, case_id, revision, received_at, sha256, document
            from knee_case where clinic = :clinic and case_id = :case_id
            order by clinic desc, case_id desc, revision desc limit 1
            """,
            clinic)
        .bind("case_id", caseId)
        .map((row, context) -> Columns.storedCase(row))
        .findOne();
  }

  /**
   * A battery.
   *
   * @param clinic the clinic
   * @param id its id
   * @return the battery; empty where there is none
   */
  public Optional<StoredBattery> battery(String clinic, UUID id) {
    return batteryQuery("id = :id", "", clinic)
        .bind("id", id)
        .map((row, context) -> Columns.battery(row))
        .findOne();
  }

  /**
   * The battery that the sender calls so.
   *
   * @param clinic the clinic
   * @param recordId the sender's own id
   * @return the battery; empty where there is none
   */
  public Optional<StoredBattery> batteryByRecordId(String clinic, String recordId) {
    return batteryQuery("record_id = :record_id", "", clinic)
        .bind("record_id", recordId)
        .map((row, context) -> Columns.battery(row))
        .findOne();
  }

  /**
   * A page of a case's batteries, newest first.
   *
   * @param clinic the clinic
   * @param caseId the case
   * @param after the last one of the page before
   * @param limit most to give, at least 1
   * @return the batteries
   */
  public List<StoredBattery> batteries(
      String clinic, String caseId, Optional<Position> after, int limit) {
    String older = after.isPresent() ? " and (performed_at, id) < (:after_at, :after_id)" : "";
    Query query =
        batteryQuery("case_id = :case_id" + older, BATTERY_ORDER + " limit :limit", clinic)
            .bind("case_id", caseId)
            .bind("limit", atLeastOne(limit));
    after.ifPresent(p -> query.bind("after_at", p.at()).bind("after_id", p.id()));
    return query.map((row, context) -> Columns.battery(row)).list();
  }

  /**
   * The newest battery of a case at a time that no other has replaced.
   *
   * @param clinic the clinic
   * @param caseId the case
   * @param notAfter newest time allowed, inclusive
   * @return the battery; empty where there is none
   */
  public Optional<StoredBattery> newestBattery(String clinic, String caseId, Instant notAfter) {
    return batteryQuery(
            """
            case_id = :case_id and performed_at <= :not_after
            and not exists (select 1 from correction where correction.clinic = :clinic
              and correction.replaces = battery.id)
            """,
            BATTERY_ORDER + " limit 1",
            clinic)
        .bind("case_id", caseId)
        .bind("not_after", notAfter)
        .map((row, context) -> Columns.battery(row))
        .findOne();
  }

  /**
   * How many batteries a case has in a span of time; one that was corrected counts once.
   *
   * @param clinic the clinic
   * @param caseId the case
   * @param from start, inclusive
   * @param to end, inclusive
   * @return the number
   */
  public int countBatteries(String clinic, String caseId, Instant from, Instant to) {
    return query(
            """
            select count(*) from battery
            where clinic = :clinic and case_id = :case_id
              and performed_at >= :from_at and performed_at <= :to_at
              and not exists (select 1 from correction where correction.clinic = :clinic
                and correction.replaces = battery.id)
            """,
            clinic)
        .bind("case_id", caseId)
        .bind("from_at", from)
        .bind("to_at", to)
        .mapTo(Integer.class)
        .one();
  }

  /**
   * What the batteries of a case are evidence for.
   *
   * @param clinic the clinic
   * @param caseId the case
   * @return what looks it up
   */
  public EvidenceSearch evidence(String clinic, String caseId) {
    return new EvidenceSearch(handle, clinic, caseId);
  }

  /**
   * Counts over the cases of a clinic.
   *
   * @param clinic the clinic
   * @param cohort which cases
   * @return the counts, valid inside the transaction only
   */
  public CohortSearch cohort(String clinic, CohortFilter cohort) {
    return new CohortSearch(handle, clinic, cohort);
  }

  /**
   * The plans that clinicians of a clinic adopted.
   *
   * @param clinic the clinic
   * @return the plans, valid inside the transaction only
   */
  public PlanSearch plans(String clinic) {
    return new PlanSearch(handle, clinic);
  }

  /**
   * The entries of a clinic's training records.
   *
   * @param clinic the clinic
   * @return what looks them up
   */
  public SessionSearch sessions(String clinic) {
    return new SessionSearch(handle, clinic);
  }

  /**
   * A decision.
   *
   * @param clinic the clinic
   * @param id its id
   * @return the decision; empty where there is none
   */
  public Optional<StoredDecision> decision(String clinic, UUID id) {
    return DecisionSearch.byId(handle, clinic, id);
  }

  /**
   * A page of decisions, newest first.
   *
   * @param clinic the clinic
   * @param filter which ones
   * @param after the last one of the page before
   * @param limit most to give, at least 1
   * @return the decisions
   */
  public List<StoredDecision> decisions(
      String clinic, DecisionFilter filter, Optional<Position> after, int limit) {
    return DecisionSearch.page(handle, clinic, filter, after, atLeastOne(limit));
  }

  /**
   * The answer to an earlier request.
   *
   * @param clinic the clinic
   * @param key the idempotency key
   * @return what was remembered; empty where the key is new
   */
  public Optional<Remembered> remembered(String clinic, String key) {
    return query(
            """
            select clinic, idempotency_key, fingerprint, kind, record_id, created_at
            from idempotency where clinic = :clinic and idempotency_key = :key
            """,
            clinic)
        .bind("key", key)
        .map((row, context) -> Columns.remembered(row))
        .findOne();
  }

  /**
   * A version of a clinic's own criteria set.
   *
   * @param clinic the clinic
   * @param id id of the set
   * @param version its version
   * @return the set; empty where there is none
   */
  public Optional<StoredCriteriaSet> criteriaSet(String clinic, String id, String version) {
    return query(CRITERIA_SETS + " and id = :id and version = :version", clinic)
        .bind("id", id)
        .bind("version", version)
        .map((row, context) -> Columns.criteriaSet(row))
        .findOne();
  }

  /**
   * All versions of all of a clinic's own criteria sets.
   *
   * @param clinic the clinic
   * @return the sets, by id and then as published
   */
  public List<StoredCriteriaSet> criteriaSets(String clinic) {
    return query(CRITERIA_SETS + " order by id, published_at, version", clinic)
        .map((row, context) -> Columns.criteriaSet(row))
        .list();
  }

  private Query batteryQuery(String condition, String order, String clinic) {
    return query(
        "select "
            + BATTERY_COLUMNS
            + " from battery where clinic = :clinic and "
            + condition
            + order,
        clinic);
  }

  private Query query(String sql, String clinic) {
    return handle.createQuery(sql).bind("clinic", clinic);
  }

  static int atLeastOne(int limit) {
    if (limit < 1) {
      throw new IllegalArgumentException("limit must be at least 1, got " + limit);
    }
    return limit;
  }
}
