package evenside.readiness;

import static evenside.readiness.Crowd.SURGERY;
import static evenside.readiness.Crowd.TESTED;
import static evenside.readiness.Crowd.criterion;
import static evenside.readiness.Crowd.torque;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.ledger.Ledger;
import evenside.readiness.cases.Cases;
import evenside.store.cohort.CohortFilter;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** Who counts in a cohort, and what is hidden; the published ones: {@link PublishedCohortsTest}. */
class CohortsTest {
  private static final CohortFilter WOMEN = ofSex("female");
  private static final CohortFilter MEN = ofSex("male");

  private Crowd crowd;

  @BeforeEach
  void open(@TempDir Path folder) {
    crowd = Crowd.in(folder, "cristiani-2019-symmetry/1");
  }

  @AfterEach
  void close() {
    crowd.close();
  }

  private static CohortFilter ofSex(String sex) {
    return new CohortFilter(
        Optional.of(sex),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
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

  @Test
  void smallCells_areHidden_withWhatWouldGiveThemAway() {
    crowd.enrol(
        12,
        i -> Rehab.person(SURGERY).put("sex", i < 3 ? "male" : "female"),
        (i, tests) ->
            tests
                .torque("knee-extension-peak-torque", torque(i < 2), 100)
                .torque("knee-flexion-peak-torque", torque(i < 6), 100)
                .hop("single-hop-distance", 95, 100));
    JsonNode everybody = crowd.cohort();

    JsonNode quadriceps = criterion(everybody, "knee-extension-symmetry");
    assertThat(quadriceps.path("suppressed").asBoolean()).isTrue();
    assertThat(quadriceps.has("met")).isFalse();
    assertThat(quadriceps.has("notMet")).isFalse();
    assertThat(quadriceps.has("ofTested")).isFalse();
    assertThat(quadriceps.has("ofEnrolled")).isFalse();
    JsonNode hamstrings = criterion(everybody, "knee-flexion-strength-symmetry");
    assertThat(hamstrings.path("met").asInt()).isEqualTo(6);
    assertThat(everybody.path("overall").path("suppressed").asBoolean()).isTrue();

    JsonNode few = crowd.cohort(MEN);
    assertThat(few.has("enrolled")).isFalse();
    assertThat(few.has("decided")).isFalse();
    assertThat(few.toString()).doesNotContain("\"met\"").doesNotContain("percent");
    assertThat(crowd.cohort(WOMEN).path("enrolled").asInt()).isEqualTo(9);
  }

  @Test
  void filters_chooseByGraftAgeAndSurgery_andTheNewestDecisionCounts() {
    crowd.enrol(
        20,
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
      crowd.retest(i, again, later);
    }
    JsonNode patellar = crowd.cohort(filter("patellar-tendon", null, null));
    assertThat(patellar.path("enrolled").asInt()).isEqualTo(8);

    JsonNode all = crowd.cohort();
    assertThat(all.path("decided").asInt()).isEqualTo(20);
    assertThat(all.path("overall").path("met").asInt()).isEqualTo(7);
    assertThat(Crowd.time(all, "symmetry-checkpoint").path("met").asInt()).isEqualTo(7);

    assertThat(crowd.cohort(filter(null, 0, 18)).path("enrolled").asInt()).isEqualTo(10);
    assertThat(crowd.cohort(filter(null, 19, null)).path("enrolled").asInt()).isEqualTo(10);
    CohortFilter nextYear =
        new CohortFilter(
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.of(SURGERY.plusDays(1)),
            Optional.empty());
    assertThat(crowd.cohort(nextYear).path("enrolled").asInt()).isZero();
  }

  /** 40 people not met, 20 met; 6 are cleared all the same, 5 of those who met are not. */
  @Test
  void determinations_thatDifferFromTheOutcome_areCounted() {
    for (int i = 0; i < 60; i++) {
      crowd.rehab.put("p-" + i, Rehab.person(SURGERY));
      Tests tests =
          Tests.on(TESTED)
              .torque("knee-extension-peak-torque", torque(i < 20), 100)
              .torque("knee-flexion-peak-torque", 95, 100)
              .hop("single-hop-distance", 95, 100);
      String decision = crowd.retest(i, tests, TESTED).path("decisionId").asString();
      if (i < 5 || (i >= 26 && i < 40)) {
        crowd.rehab.determine(decision, "not-cleared");
      } else if (i < 26) {
        crowd.rehab.determine(decision, "not-cleared");
        crowd.rehab.determine(decision, "cleared");
      }
    }
    JsonNode determined = crowd.cohort().path("determinations");

    assertThat(determined.path("determined").asInt()).isEqualTo(40);
    assertThat(determined.path("agreeing").asInt()).isEqualTo(29);
    assertThat(determined.path("clearedNotMet").asInt()).isEqualTo(6);
    assertThat(determined.path("otherwiseDiffering").asInt()).isEqualTo(5);
  }

  @Test
  void changedCase_isFiledUnderItsNewestRevision() {
    Cases cases = crowd.rehab.service.cases();
    for (int i = 0; i < 5; i++) {
      String caseId = crowd.rehab.put("p-" + i, Rehab.person(SURGERY).put("sex", "male"));
      String seen = cases.get(Rehab.CLINIC, caseId).sha256();
      cases.put(Rehab.CLINIC, caseId, Rehab.person(SURGERY), Optional.of(seen));
    }
    assertThat(crowd.cohort(WOMEN).path("enrolled").asInt()).isEqualTo(5);
    assertThat(crowd.cohort().path("enrolled").asInt()).isEqualTo(5);
  }

  @Test
  void spanOfDates_bounds_whichDecisionsCount() {
    crowd.enrol(6, (i, tests) -> tests.hop("single-hop-distance", 95, 100));
    assertThat(crowd.cohortOf(TESTED.minusDays(1)).path("decided").asInt()).isZero();
    assertThat(crowd.cohortOf(TESTED).path("decided").asInt()).isEqualTo(6);
  }

  @Test
  void anotherClinic_seesNobody() {
    crowd.enrol(6, (i, tests) -> tests.hop("single-hop-distance", 95, 100));
    assertThat(crowd.cohortOfClinic("elsewhere").path("enrolled").asInt()).isZero();
  }

  @Test
  void cellOfNobody_isNoLimit() {
    Rehab rehab = crowd.rehab;
    assertThatThrownBy(
            () ->
                ReadinessService.of(
                    Rehab.CONTRACT, rehab.store, Ledger.off(rehab.store), Instant::now, 0))
        .hasMessageContaining("at least 1, got 0");
  }
}
