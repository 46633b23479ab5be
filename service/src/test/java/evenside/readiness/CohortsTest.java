package evenside.readiness;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import evenside.ledger.Ledger;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.Function;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Invented people built to the counts of published cohorts give the published percentages. */
class CohortsTest {
  private static final LocalDate SURGERY = LocalDate.parse("2026-01-05");
  private static final LocalDate TESTED = SURGERY.plusWeeks(28);

  /** Hides nothing, so that small published counts can be compared. */
  private static final int SHOW_ALL = 1;

  @TempDir Path folder;

  private static CohortFilter women() {
    return new CohortFilter(
        Optional.of("female"),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

  private static JsonNode cohort(Rehab rehab, String set, CohortFilter cases) {
    Cohorts.Asked asked =
        new Cohorts.Asked(
            new Wanted(Optional.empty(), Optional.of(set), Optional.empty()),
            Optional.empty(),
            Optional.empty(),
            cases);
    return Rehab.valid("cohort", rehab.service.cohorts().of(Rehab.CLINIC, asked));
  }

  private static void enrol(
      Rehab rehab,
      int people,
      String set,
      Function<Integer, ObjectNode> person,
      BiConsumer<Integer, Tests> tests) {
    for (int i = 0; i < people; i++) {
      String caseId = rehab.put("p-" + i, person.apply(i));
      Tests battery = Tests.on(TESTED);
      tests.accept(i, battery);
      rehab.test(caseId, battery);
      rehab.decide(caseId, set, TESTED);
    }
  }

  private static JsonNode criterion(JsonNode cohort, String id) {
    return cohort
        .path("criteria")
        .valueStream()
        .filter(row -> row.path("criterion").asString().equals(id))
        .findFirst()
        .orElseThrow();
  }

  private static double ofTested(JsonNode row) {
    return row.path("ofTested").path("percent").asDouble();
  }

  private static int torque(boolean passes) {
    return passes ? 95 : 85;
  }

  /**
   * Gokeler (2017), Knee Surg Sports Traumatol Arthrosc 25:192–199: 28 people; passed 39.3, 46.4,
   * 42.9 % quadriceps at 60, 180, 300 deg/s; 78.5 % (78.57 cut) single hop; 85.7 % triple hop; 50 %
   * side hop; 67.9 % landing; 85.7 % IKDC; 75 % ACL-RSI; 2 of 28 all. Hamstrings, not printed
   * there, pass here.
   */
  @Test
  void gokeler2017_isReproduced() {
    String set = "gokeler-welling/2018.1";
    try (Rehab rehab = Rehab.in(folder, SHOW_ALL)) {
      enrol(
          rehab,
          28,
          set,
          i -> Rehab.person(SURGERY),
          (i, tests) ->
              tests
                  .torque("knee-extension-peak-torque", 60, torque(i < 11), 100)
                  .torque("knee-extension-peak-torque", 180, torque(i < 2 || i >= 17), 100)
                  .torque("knee-extension-peak-torque", 300, torque(i < 12), 100)
                  .torque("knee-flexion-peak-torque", 60, 95, 100)
                  .torque("knee-flexion-peak-torque", 180, 95, 100)
                  .torque("knee-flexion-peak-torque", 300, 95, 100)
                  .hop("single-hop-distance", torque(i < 22), 100)
                  .hop("triple-hop-distance", torque(i < 24) * 3, 300)
                  .hopCount(torque(i < 14) / 2, 50)
                  .landingErrors(i < 19 ? 4 : 5)
                  .fact("ikdc-within-reference-range", i < 24)
                  .score("acl-rsi", i < 21 ? 57 : 56));
      JsonNode cohort = cohort(rehab, set, CohortFilter.EVERYBODY);

      assertThat(ofTested(criterion(cohort, "knee-extension-symmetry-60")))
          .isCloseTo(39.3, within(0.05));
      assertThat(ofTested(criterion(cohort, "knee-extension-symmetry-180")))
          .isCloseTo(46.4, within(0.05));
      assertThat(ofTested(criterion(cohort, "knee-extension-symmetry-300")))
          .isCloseTo(42.9, within(0.05));
      assertThat(ofTested(criterion(cohort, "single-hop-symmetry"))).isCloseTo(78.5, within(0.1));
      assertThat(ofTested(criterion(cohort, "triple-hop-symmetry"))).isCloseTo(85.7, within(0.05));
      assertThat(ofTested(criterion(cohort, "landing-error-score"))).isCloseTo(67.9, within(0.05));
      assertThat(ofTested(criterion(cohort, "ikdc-within-reference-range")))
          .isCloseTo(85.7, within(0.05));
      assertThat(ofTested(criterion(cohort, "acl-rsi"))).isCloseTo(75, within(0.05));
      assertThat(ofTested(cohort.path("overall"))).isCloseTo(7.1, within(0.05));
      assertThat(cohort.path("overall").path("met").asInt()).isEqualTo(2);
    }
  }

  /**
   * Kyritsis (2016), Br J Sports Med 50:946–951: 158 people, 116 met all six and 42 did not
   * (second-hand): 73.4 and 26.6 %. The agility run is what stops most of these invented ones.
   */
  @Test
  void kyritsis2016_isReproduced_andTheCommonestBlockIsNamed() {
    String set = "kyritsis-2016-discharge/1";
    try (Rehab rehab = Rehab.in(folder)) {
      enrol(
          rehab,
          158,
          set,
          i -> Rehab.person(SURGERY).put("sex", "male"),
          (i, tests) ->
              tests
                  .torque("knee-extension-peak-torque", torque(i < 140), 100)
                  .hop("single-hop-distance", 145, 150)
                  .hop("triple-hop-distance", 450, 460)
                  .hop("crossover-hop-distance", 440, 450)
                  .fact("on-field-programme-completed", true)
                  .time("agility-t-test", i < 116 || i >= 150 ? 10.9 : 11));
      JsonNode cohort = cohort(rehab, set, CohortFilter.EVERYBODY);

      assertThat(cohort.path("overall").path("met").asInt()).isEqualTo(116);
      assertThat(cohort.path("overall").path("notMet").asInt()).isEqualTo(42);
      assertThat(ofTested(cohort.path("overall"))).isCloseTo(73.4, within(0.05));
      JsonNode commonest = cohort.path("blocking").path(0);
      assertThat(commonest.path("criterion").asString()).isEqualTo("agility-t-test");
      assertThat(commonest.path("notMet").asInt()).isEqualTo(34);
      assertThat(commonest.path("alone").asInt()).isEqualTo(24);
      JsonNode training = time(cohort, "full-training");
      assertThat(training.path("met").asInt()).isEqualTo(116);
      assertThat(training.path("censored").asInt()).isEqualTo(42);
      assertThat(training.path("medianDays").asInt()).isEqualTo(28 * 7);
    }
  }

  private static JsonNode time(JsonNode cohort, String milestone) {
    return cohort
        .path("timeToMilestone")
        .valueStream()
        .filter(row -> row.path("milestone").asString().equals(milestone))
        .findFirst()
        .orElseThrow();
  }

  /** Printed as "69 (87)": 60 of 69 tested are 87 %, of 87 enrolled 69 %; count implied. */
  @Test
  void bothDenominators_areShown() {
    String set = "cristiani-2019-symmetry/1";
    try (Rehab rehab = Rehab.in(folder)) {
      enrol(
          rehab,
          87,
          set,
          i -> Rehab.person(SURGERY),
          (i, tests) -> {
            tests.hop("single-hop-distance", 140, 150);
            if (i < 69) {
              tests.torque("knee-extension-peak-torque", i < 60 ? 90 : 89, 100);
            }
          });
      JsonNode row =
          criterion(cohort(rehab, set, CohortFilter.EVERYBODY), "knee-extension-symmetry");

      assertThat(row.path("undetermined").asInt()).isEqualTo(18);
      assertThat(row.path("ofTested").path("of").asInt()).isEqualTo(69);
      assertThat(row.path("ofTested").path("percent").asDouble()).isCloseTo(87, within(0.5));
      assertThat(row.path("ofEnrolled").path("of").asInt()).isEqualTo(87);
      assertThat(row.path("ofEnrolled").path("percent").asDouble()).isCloseTo(69, within(0.5));
    }
  }

  @Test
  void smallCells_areHidden_withWhatWouldGiveThemAway() {
    String set = "cristiani-2019-symmetry/1";
    try (Rehab rehab = Rehab.in(folder)) {
      enrol(
          rehab,
          12,
          set,
          i -> Rehab.person(SURGERY).put("sex", i < 3 ? "male" : "female"),
          (i, tests) ->
              tests
                  .torque("knee-extension-peak-torque", torque(i < 2), 100)
                  .torque("knee-flexion-peak-torque", torque(i < 6), 100)
                  .hop("single-hop-distance", 95, 100));
      JsonNode everybody = cohort(rehab, set, CohortFilter.EVERYBODY);

      JsonNode quadriceps = criterion(everybody, "knee-extension-symmetry");
      assertThat(quadriceps.path("suppressed").asBoolean()).isTrue();
      assertThat(quadriceps.has("met")).isFalse();
      assertThat(quadriceps.has("notMet")).isFalse();
      assertThat(quadriceps.has("ofTested")).isFalse();
      assertThat(quadriceps.has("ofEnrolled")).isFalse();
      JsonNode hamstrings = criterion(everybody, "knee-flexion-strength-symmetry");
      assertThat(hamstrings.path("met").asInt()).isEqualTo(6);
      assertThat(everybody.path("overall").path("suppressed").asBoolean()).isTrue();

      CohortFilter men =
          new CohortFilter(
              Optional.of("male"),
              Optional.empty(),
              Optional.empty(),
              Optional.empty(),
              Optional.empty(),
              Optional.empty());
      JsonNode few = cohort(rehab, set, men);
      assertThat(few.has("enrolled")).isFalse();
      assertThat(few.has("decided")).isFalse();
      assertThat(few.toString()).doesNotContain("\"met\"").doesNotContain("percent");
      assertThat(cohort(rehab, set, women()).path("enrolled").asInt()).isEqualTo(9);
    }
  }

  @Test
  void filters_chooseByGraftAgeAndSurgery_andTheNewestDecisionCounts() {
    String set = "cristiani-2019-symmetry/1";
    try (Rehab rehab = Rehab.in(folder)) {
      enrol(
          rehab,
          20,
          set,
          i ->
              Rehab.person(SURGERY)
                  .put("graft", i < 8 ? "patellar-tendon" : "hamstring-tendon")
                  .put("birthYear", i % 2 == 0 ? 2008 : 1990),
          (i, tests) -> tests.hop("single-hop-distance", 80, 100));
      LocalDate later = TESTED.plusWeeks(6);
      for (int i = 0; i < 7; i++) {
        Tests again =
            Tests.on(later)
                .torque("knee-extension-peak-torque", 95, 100)
                .torque("knee-flexion-peak-torque", 95, 100)
                .hop("single-hop-distance", 95, 100);
        rehab.test("p-" + i, again);
        rehab.decide("p-" + i, set, later);
      }
      JsonNode patellar = cohort(rehab, set, filter("patellar-tendon", null, null));
      assertThat(patellar.path("enrolled").asInt()).isEqualTo(8);

      JsonNode all = cohort(rehab, set, CohortFilter.EVERYBODY);
      assertThat(all.path("decided").asInt()).isEqualTo(20);
      assertThat(all.path("overall").path("met").asInt()).isEqualTo(7);
      assertThat(time(all, "symmetry-checkpoint").path("met").asInt()).isEqualTo(7);

      assertThat(cohort(rehab, set, filter(null, 0, 18)).path("enrolled").asInt()).isEqualTo(10);
      assertThat(cohort(rehab, set, filter(null, 19, null)).path("enrolled").asInt()).isEqualTo(10);
      CohortFilter nextYear =
          new CohortFilter(
              Optional.empty(),
              Optional.empty(),
              Optional.empty(),
              Optional.empty(),
              Optional.of(SURGERY.plusDays(1)),
              Optional.empty());
      assertThat(cohort(rehab, set, nextYear).path("enrolled").asInt()).isZero();
    }
  }

  private static CohortFilter filter(String graft, Integer from, Integer to) {
    return new CohortFilter(
        Optional.empty(),
        Optional.ofNullable(graft),
        Optional.ofNullable(from),
        Optional.ofNullable(to),
        Optional.empty(),
        Optional.empty());
  }

  /** 40 people not met, 20 met; 6 are cleared all the same, 5 of those who met are not. */
  @Test
  void determinations_thatDifferFromTheOutcome_areCounted() {
    String set = "cristiani-2019-symmetry/1";
    try (Rehab rehab = Rehab.in(folder)) {
      for (int i = 0; i < 60; i++) {
        String caseId = rehab.put("p-" + i, Rehab.person(SURGERY));
        Tests tests = Tests.on(TESTED);
        tests.torque("knee-extension-peak-torque", torque(i < 20), 100);
        tests.torque("knee-flexion-peak-torque", 95, 100);
        rehab.test(caseId, tests.hop("single-hop-distance", 95, 100));
        String decision = rehab.decide(caseId, set, TESTED).path("decisionId").asString();
        if (i < 5 || (i >= 26 && i < 40)) {
          rehab.determine(decision, "not-cleared");
        } else if (i < 26) {
          rehab.determine(decision, "not-cleared");
          rehab.determine(decision, "cleared");
        }
      }
      JsonNode determined = cohort(rehab, set, CohortFilter.EVERYBODY).path("determinations");

      assertThat(determined.path("determined").asInt()).isEqualTo(40);
      assertThat(determined.path("agreeing").asInt()).isEqualTo(29);
      assertThat(determined.path("clearedNotMet").asInt()).isEqualTo(6);
      assertThat(determined.path("otherwiseDiffering").asInt()).isEqualTo(5);
    }
  }

  @Test
  void changedCase_isFiledUnderItsNewestRevision() {
    try (Rehab rehab = Rehab.in(folder)) {
      for (int i = 0; i < 5; i++) {
        String caseId = rehab.put("p-" + i, Rehab.person(SURGERY).put("sex", "male"));
        String seen = rehab.service.cases().get(Rehab.CLINIC, caseId).sha256();
        rehab.service.cases().put(Rehab.CLINIC, caseId, Rehab.person(SURGERY), Optional.of(seen));
      }
      String set = "cristiani-2019-symmetry/1";
      assertThat(cohort(rehab, set, women()).path("enrolled").asInt()).isEqualTo(5);
      assertThat(cohort(rehab, set, CohortFilter.EVERYBODY).path("enrolled").asInt()).isEqualTo(5);
    }
  }

  @Test
  void spanOfDates_bounds_whichDecisionsCount() {
    String set = "cristiani-2019-symmetry/1";
    try (Rehab rehab = Rehab.in(folder)) {
      enrol(
          rehab,
          6,
          set,
          i -> Rehab.person(SURGERY),
          (i, tests) -> tests.hop("single-hop-distance", 95, 100));
      Wanted wanted = new Wanted(Optional.empty(), Optional.of(set), Optional.empty());
      for (LocalDate day : Stream.of(TESTED.minusDays(1), TESTED).toList()) {
        JsonNode cohort =
            Rehab.valid(
                "cohort",
                rehab
                    .service
                    .cohorts()
                    .of(
                        Rehab.CLINIC,
                        new Cohorts.Asked(
                            wanted, Optional.of(day), Optional.of(day), CohortFilter.EVERYBODY)));
        assertThat(cohort.path("decided").asInt()).isEqualTo(day.equals(TESTED) ? 6 : 0);
      }
    }
  }

  @Test
  void anotherClinic_seesNobody() {
    String set = "cristiani-2019-symmetry/1";
    try (Rehab rehab = Rehab.in(folder)) {
      enrol(
          rehab,
          6,
          set,
          i -> Rehab.person(SURGERY),
          (i, tests) -> tests.hop("single-hop-distance", 95, 100));
      Cohorts.Asked asked =
          new Cohorts.Asked(
              new Wanted(Optional.empty(), Optional.of(set), Optional.empty()),
              Optional.empty(),
              Optional.empty(),
              CohortFilter.EVERYBODY);
      JsonNode elsewhere = Rehab.valid("cohort", rehab.service.cohorts().of("elsewhere", asked));
      assertThat(elsewhere.path("enrolled").asInt()).isZero();
    }
  }

  @Test
  void cellOfNobody_isNoLimit() {
    try (Rehab rehab = Rehab.in(folder)) {
      assertThatThrownBy(
              () ->
                  ReadinessService.of(
                      Rehab.CONTRACT,
                      rehab.store,
                      Ledger.off(rehab.store),
                      java.time.Instant::now,
                      0))
          .hasMessageContaining("at least 1, got 0");
    }
  }
}
