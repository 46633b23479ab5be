package evenside.store;

import static evenside.store.Samples.NOON;
import static evenside.store.Samples.battery;
import static evenside.store.Samples.newClinic;
import static java.time.temporal.ChronoUnit.DAYS;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.store.cohort.CaseFacts;
import evenside.store.cohort.CohortFilter;
import evenside.store.cohort.CohortFilter.Decided;
import evenside.store.cohort.Course;
import evenside.store.cohort.FindingCount;
import evenside.store.cohort.FindingRow;
import evenside.store.evidence.EvidenceRow;
import evenside.store.evidence.FiledNumber;
import evenside.store.evidence.FoundEvidence;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/**
 * What holds for series, plans and cohorts in every database. Each test has a clinic of its own.
 */
abstract class TrendsContract {
  private static final LocalDate SURGERY = LocalDate.parse("2025-09-01");
  private static final LocalDate AS_OF = LocalDate.parse("2026-03-02");
  private static final Decided DECIDED = new Decided("s", "1", AS_OF.minusDays(30), AS_OF);

  private final String clinic = newClinic();

  abstract Store store();

  private void person(String caseId, int revision, String sex, int birthYear, String graft) {
    store()
        .<Boolean>write(
            w -> {
              StoredCase stored = Samples.kneeCase(clinic, caseId, revision);
              w.cases().insert(stored);
              w.cases().insertFacts(stored, new CaseFacts(sex, birthYear, graft, SURGERY));
              return true;
            });
  }

  private void decide(String caseId, LocalDate asOf, String outcome, boolean alone) {
    StoredDecision decision =
        new StoredDecision(
            clinic,
            Samples.newId(),
            caseId,
            "s",
            "1",
            Samples.sha256(Samples.bytes("s")),
            "m",
            outcome,
            asOf,
            NOON,
            Samples.bytes("{}"),
            Samples.bytes("{}"));
    store()
        .<Boolean>write(
            w -> {
              w.insertDecision(decision);
              w.insertFindings(
                  decision,
                  List.of(
                      new FindingRow(FindingRow.WHOLE_SET, outcome, true, false),
                      new FindingRow("hop", outcome, true, alone),
                      new FindingRow("alone", outcome, false, false)));
              return true;
            });
  }

  private void test(String caseId, Instant performedAt, double amount) {
    FiledNumber number = new FiledNumber(amount, "cm", "{}", LocalDate.parse("2026-03-02"));
    EvidenceRow row =
        new EvidenceRow(
            "single-hop-distance",
            "operated",
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.of(number));
    store()
        .<Boolean>write(
            w -> {
              w.insertBattery(battery(clinic, caseId, performedAt), List.of(row));
              return true;
            });
  }

  private List<FindingCount> findings(CohortFilter cohort) {
    return store().read(r -> r.cohort(clinic, cohort).findings(DECIDED));
  }

  private int enrolled(CohortFilter cohort) {
    int enrolled = store().read(r -> r.cohort(clinic, cohort).enrolled());
    return enrolled;
  }

  private static FindingCount count(String criterion, String outcome, boolean alone, int people) {
    return new FindingCount(new FindingRow(criterion, outcome, true, alone), people);
  }

  /** Of a criterion that is called as a mark of a line is written. */
  private static FindingCount forInformation(String criterion, String outcome, int people) {
    return new FindingCount(new FindingRow(criterion, outcome, false, false), people);
  }

  @Test
  void series_comesNewestFirst_withItsNumbers_upToATime() {
    test("k-1", NOON, 140);
    test("k-1", NOON.plus(7, DAYS), 150);
    test("k-2", NOON, 999);

    assertThat(amounts(NOON.plus(9, DAYS), 10)).containsExactly(150.0, 140.0);
    assertThat(amounts(NOON, 10)).containsExactly(140.0);
    assertThat(amounts(NOON.plus(9, DAYS), 1)).containsExactly(150.0);
  }

  private List<Double> amounts(Instant notAfter, int limit) {
    List<FoundEvidence> rows =
        store().read(r -> r.evidence(clinic, "k-1").series("single-hop-distance", notAfter, limit));
    return rows.stream().map(row -> row.row().number().orElseThrow().amount()).toList();
  }

  @Test
  void newestDecisionOfEachCase_isCounted() {
    person("k-1", 1, "female", 2001, "hamstring-tendon");
    person("k-2", 1, "male", 1990, "hamstring-tendon");
    person("k-3", 1, "male", 1990, "patellar-tendon");
    decide("k-1", AS_OF.minusDays(20), "not-met", true);
    decide("k-1", AS_OF.minusDays(2), "met", false);
    decide("k-2", AS_OF.minusDays(2), "not-met", true);
    decide("k-2", AS_OF.plusDays(1), "met", false);

    assertThat(findings(CohortFilter.EVERYBODY))
        .containsExactlyInAnyOrder(
            count("*", "met", false, 1),
            count("*", "not-met", false, 1),
            count("hop", "met", false, 1),
            count("hop", "not-met", true, 1),
            forInformation("alone", "met", 1),
            forInformation("alone", "not-met", 1));
    assertThat(enrolled(CohortFilter.EVERYBODY)).isEqualTo(3);
  }

  @Test
  void filter_looksAtTheNewestRevision() {
    person("k-1", 1, "male", 2001, "hamstring-tendon");
    person("k-1", 2, "female", 2001, "patellar-tendon");

    assertThat(enrolled(filter("male", null, null, null))).isZero();
    assertThat(enrolled(filter("female", "patellar-tendon", 24, 24))).isEqualTo(1);
    assertThat(enrolled(filter(null, null, 25, null))).isZero();
    assertThat(enrolled(filter(null, null, null, 23))).isZero();
  }

  private static CohortFilter filter(String sex, String graft, Integer from, Integer to) {
    return new CohortFilter(
        Optional.ofNullable(sex),
        Optional.ofNullable(graft),
        Optional.ofNullable(from),
        Optional.ofNullable(to),
        Optional.of(SURGERY),
        Optional.of(SURGERY));
  }

  @Test
  void course_hasTheFirstMetDecisionAndTheNewestTest() {
    person("k-1", 1, "female", 2001, "hamstring-tendon");
    person("k-2", 1, "female", 2001, "hamstring-tendon");
    test("k-1", NOON, 140);
    test("k-1", NOON.plus(7, DAYS), 150);
    decide("k-1", AS_OF.minusDays(9), "not-met", false);
    decide("k-1", AS_OF.minusDays(5), "met", false);
    decide("k-1", AS_OF.minusDays(1), "met", false);

    List<Course> courses = store().read(r -> r.cohort(clinic, CohortFilter.EVERYBODY).courses("m"));
    assertThat(courses)
        .containsExactlyInAnyOrder(
            new Course(SURGERY, Optional.of(AS_OF.minusDays(5)), Optional.of(NOON.plus(7, DAYS))),
            new Course(SURGERY, Optional.empty(), Optional.empty()));
  }

  @Test
  void anotherClinic_isNotCounted() {
    person("k-1", 1, "female", 2001, "hamstring-tendon");
    decide("k-1", AS_OF, "met", false);
    List<FindingCount> elsewhere =
        store().read(r -> r.cohort(newClinic(), CohortFilter.EVERYBODY).findings(DECIDED));
    assertThat(elsewhere).isEmpty();
  }

  @Test
  void plans_comeNewestFirst_pageByPage() {
    StoredPlan older = Samples.plan(clinic, "k-1", NOON);
    StoredPlan newer = Samples.plan(clinic, "k-1", NOON.plusSeconds(1));
    store()
        .<Boolean>write(
            w -> {
              w.insertPlan(newer);
              w.insertPlan(older);
              w.insertPlan(Samples.plan(clinic, "k-2", NOON));
              return true;
            });

    assertThat(ids(Optional.empty(), 1)).containsExactly(newer.id());
    assertThat(ids(Optional.of(newer.position()), 10)).containsExactly(older.id());
    Optional<StoredPlan> found = store().read(r -> r.plans(clinic).byId(older.id()));
    assertThat(found.orElseThrow().document()).isEqualTo(older.document());
    Optional<StoredPlan> elsewhere = store().read(r -> r.plans("elsewhere").byId(older.id()));
    assertThat(elsewhere).isEmpty();
  }

  private List<java.util.UUID> ids(Optional<Position> after, int limit) {
    List<StoredPlan> plans = store().read(r -> r.plans(clinic).ofCase("k-1", after, limit));
    return plans.stream().map(StoredPlan::id).toList();
  }
}
