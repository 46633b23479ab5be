package evenside.readiness;

import evenside.readiness.recovery.Wanted;
import evenside.store.cohort.CohortFilter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.Function;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Invented people, all operated and tested on the same days, and what their clinic is told. */
final class Crowd implements AutoCloseable {
  static final LocalDate SURGERY = LocalDate.parse("2026-01-05");
  static final LocalDate TESTED = SURGERY.plusWeeks(28);

  final Rehab rehab;
  private final String set;

  private Crowd(Rehab rehab, String set) {
    this.rehab = rehab;
    this.set = set;
  }

  /**
   * Nobody yet.
   *
   * @param set criteria set that all of them are decided by, {@code id/version}
   */
  static Crowd in(Path folder, String set) {
    return new Crowd(Rehab.in(folder), set);
  }

  /** Hides nothing, so that small published counts can be compared. */
  static Crowd shownInFull(Path folder, String set) {
    return new Crowd(Rehab.in(folder, 1), set);
  }

  /** Enrols people who are alike but for their tests. */
  void enrol(int people, BiConsumer<Integer, Tests> tests) {
    enrol(people, i -> Rehab.person(SURGERY), tests);
  }

  /** Enrols, tests and decides; the functions are given the number of each, from 0. */
  void enrol(int people, Function<Integer, ObjectNode> person, BiConsumer<Integer, Tests> tests) {
    for (int i = 0; i < people; i++) {
      rehab.put("p-" + i, person.apply(i));
      Tests battery = Tests.on(TESTED);
      tests.accept(i, battery);
      retest(i, battery, TESTED);
    }
  }

  /** Tests somebody enrolled, and decides; gives the decision. */
  JsonNode retest(int number, Tests tests, LocalDate day) {
    rehab.test("p-" + number, tests);
    return rehab.decide("p-" + number, set, day);
  }

  /** What the clinic is told of everybody. */
  JsonNode cohort() {
    return cohort(CohortFilter.EVERYBODY);
  }

  JsonNode cohort(CohortFilter cases) {
    return cohort(Rehab.CLINIC, Optional.empty(), cases);
  }

  /** What it is told of those decided on one day. */
  JsonNode cohortOf(LocalDate day) {
    return cohort(Rehab.CLINIC, Optional.of(day), CohortFilter.EVERYBODY);
  }

  JsonNode cohortOfClinic(String clinic) {
    return cohort(clinic, Optional.empty(), CohortFilter.EVERYBODY);
  }

  private JsonNode cohort(String clinic, Optional<LocalDate> day, CohortFilter cases) {
    Wanted wanted = new Wanted(Optional.empty(), Optional.of(set), Optional.empty());
    Cohorts.Asked asked = new Cohorts.Asked(wanted, day, day, cases);
    return Rehab.valid("cohort", rehab.service.cohorts().of(clinic, asked));
  }

  static JsonNode criterion(JsonNode cohort, String id) {
    return row(cohort.path("criteria"), "criterion", id);
  }

  static JsonNode time(JsonNode cohort, String milestone) {
    return row(cohort.path("timeToMilestone"), "milestone", milestone);
  }

  private static JsonNode row(JsonNode rows, String member, String value) {
    return rows.valueStream()
        .filter(row -> row.path(member).asString().equals(value))
        .findFirst()
        .orElseThrow();
  }

  /** Percent of those tested. */
  static double ofTested(JsonNode row) {
    return row.path("ofTested").path("percent").asDouble();
  }

  /** Of the operated leg, where the other has 100. */
  static int torque(boolean passes) {
    return passes ? 95 : 85;
  }

  @Override
  public void close() {
    rehab.close();
  }
}
