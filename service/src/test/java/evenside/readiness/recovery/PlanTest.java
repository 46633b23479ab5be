package evenside.readiness.recovery;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;

import evenside.readiness.Knee;
import evenside.readiness.Rehab;
import evenside.readiness.Tests;
import evenside.readiness.recording.Refused;
import evenside.schemas.Fault;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

class PlanTest {
  private static final LocalDate SURGERY = LocalDate.parse("2026-01-05");
  private static final LocalDate TESTED = SURGERY.plusWeeks(11);

  @AutoClose private static Rehab rehab;

  @BeforeAll
  static void open(@TempDir Path folder) {
    rehab = Rehab.in(folder);
  }

  static Stream<String> sets() {
    return Rehab.CONTRACT.criteriaSets().stream()
        .map(set -> set.path("id").asString() + "/" + set.path("version").asString());
  }

  private static LocalDate later(JsonNode plan) {
    String byTime = plan.path("earliestByTime").asString("");
    LocalDate soon = TESTED.plusDays(1);
    return byTime.isEmpty() ? soon : LocalDate.parse(byTime);
  }

  /** The law of the plan: whoever reaches exactly its targets meets the set. */
  @ParameterizedTest
  @MethodSource("sets")
  void targetsOfThePlan_enteredAsANewBattery_meetTheSet(String set) {
    String caseId = rehab.put("law-" + set.replace('/', '-'), Rehab.person(SURGERY));
    rehab.test(caseId, Knee.weak().on(SURGERY.minusDays(30)));
    Knee knee = Knee.weak();
    rehab.test(caseId, knee.on(TESTED));
    assertThat(rehab.decide(caseId, set, TESTED).path("outcome").asString()).isEqualTo("not-met");

    JsonNode plan = rehab.plan(caseId, set, TESTED);
    plan.path("items")
        .valueStream()
        .filter(item -> item.has("measure"))
        .forEach(i -> knee.reach(i, 0));
    LocalDate day = later(plan);
    rehab.test(caseId, knee.on(day));

    JsonNode decided = rehab.decide(caseId, set, day);
    assertThat(decided.path("outcome").asString())
        .as("%s", decided.path("summary"))
        .isEqualTo("met");
  }

  @Test
  void targetsAndMissingTests_enteredAsANewBattery_meetTheSet() {
    String set = "delaware-oslo/2020.1";
    String caseId = rehab.put("missing", Rehab.person(SURGERY));
    Knee knee = Knee.weak().without("single-hop-distance").without("crossover-hop-distance");
    rehab.test(caseId, knee.on(TESTED));

    JsonNode plan = rehab.plan(caseId, set, TESTED);
    assertThat(kinds(plan, "test"))
        .containsExactly("single-hop-symmetry", "crossover-hop-symmetry");
    plan.path("items").valueStream().filter(i -> i.has("measure")).forEach(i -> knee.reach(i, 150));
    rehab.test(caseId, knee.on(later(plan)));

    assertThat(rehab.decide(caseId, set, later(plan)).path("outcome").asString()).isEqualTo("met");
  }

  private static List<String> kinds(JsonNode plan, String kind) {
    return plan.path("items")
        .valueStream()
        .filter(item -> item.path("kind").asString().equals(kind))
        .map(item -> item.path("finding").path("id").asString())
        .toList();
  }

  private static JsonNode item(JsonNode plan, String criterion) {
    return plan.path("items")
        .valueStream()
        .filter(item -> item.path("finding").path("id").asString().equals(criterion))
        .findFirst()
        .orElseThrow();
  }

  /** 0.9 × 179 = 161.1 N.m; 120 were shown. */
  @Test
  void deficit_isInTheTestsOwnUnit() {
    String caseId = rehab.put("deficit", Rehab.person(SURGERY));
    rehab.test(caseId, Knee.weak().on(TESTED));

    JsonNode item =
        item(rehab.plan(caseId, "delaware-oslo/2020.1", TESTED), "knee-extension-symmetry");

    assertThat(item.path("kind").asString()).isEqualTo("train");
    assertThat(item.path("deficits").path(0).path("needed").path("value").asDouble())
        .isEqualTo(161.1);
    assertThat(item.path("deficits").path(0).path("now").path("value").asDouble()).isEqualTo(120);
    assertThat(item.path("deficits").path(0).path("missing").path("value").asDouble())
        .isEqualTo(41.1);
    assertThat(item.path("finding").path("toMeet").path("text").asString())
        .isEqualTo("operated leg needs at least 161.1 N.m, now 120 N.m");
    assertThat(item.path("focusAreas").path(0).path("code").asString())
        .isEqualTo("quadriceps-strength");
    assertThat(item.path("focusAreas").path(0).path("exercises").isEmpty()).isFalse();
  }

  @Test
  void timeGate_hasItsDay_andSwellingIsExamined() {
    String caseId = rehab.put("gate", Rehab.person(SURGERY));
    rehab.test(caseId, Knee.weak().on(TESTED));

    JsonNode plan = rehab.plan(caseId, "delaware-oslo/2020.1", TESTED);

    assertThat(item(plan, "time-since-surgery").path("kind").asString()).isEqualTo("wait");
    assertThat(item(plan, "time-since-surgery").path("from").asString()).isEqualTo("2026-10-05");
    assertThat(plan.path("earliestByTime").asString()).isEqualTo("2026-10-05");
    assertThat(item(plan, "effusion").path("kind").asString()).isEqualTo("examine");
    assertThat(plan.path("proposedBy").asString()).isEqualTo("software");
    assertThat(plan.path("cautions").valueStream().map(c -> c.path("code").asString()))
        .contains("clinician-decides");
  }

  /**
   * Weeks 12, 16, 20 with 116, 133, 142 of 200: slope of symmetry 1.625 a week; SEM 7.58, z 1.96:
   * 21.01 points take 12.93 weeks, 91 days from the last test.
   */
  @Test
  void retest_isWorthIt_onceTheChangeCouldExceedTheError() {
    String caseId = rehab.put("retest", Rehab.person(SURGERY));
    int[][] course = {{12, 116}, {16, 133}, {20, 142}};
    for (int[] test : course) {
      rehab.test(
          caseId,
          Tests.on(SURGERY.plusWeeks(test[0])).torque("knee-extension-peak-torque", test[1], 200));
    }
    LocalDate last = SURGERY.plusWeeks(20);

    JsonNode retest =
        item(rehab.plan(caseId, "cristiani-2019-symmetry/1", last), "knee-extension-symmetry")
            .path("retest");

    assertThat(retest.path("beyondError").asString()).isEqualTo(last.plusDays(91).toString());
    assertThat(retest.path("basis").asString())
        .isEqualTo(
            "if it goes on at 1.63 per week, as over 3 tests; a change of less than 21.01 is within"
                + " measurement error (z 1.96)");
    assertThat(retest.path("usual").asString()).isEqualTo(last.plusWeeks(6).toString());
    assertThat(retest.path("therapistPresent").asBoolean()).isTrue();
  }

  /** Thrice 150 of 200: a line can be drawn through three tests, and this one is level. */
  @Test
  void retest_ofALegThatStandsStill_saysSo_andNotThatTestsAreMissing() {
    String caseId = rehab.put("level", Rehab.person(SURGERY));
    for (int week : new int[] {12, 16, 20}) {
      rehab.test(
          caseId, Tests.on(SURGERY.plusWeeks(week)).torque("knee-extension-peak-torque", 150, 200));
    }

    JsonNode retest =
        item(
                rehab.plan(caseId, "cristiani-2019-symmetry/1", SURGERY.plusWeeks(20)),
                "knee-extension-symmetry")
            .path("retest");

    assertThat(retest.has("beyondError")).isFalse();
    assertThat(retest.path("basis").asString())
        .isEqualTo("no change over the 3 tests so far, so no pace to go by");
  }

  @Test
  void surgeonsLimit_holdsBackExercisesAndTests() {
    ObjectNode person = Rehab.person(SURGERY);
    person.putArray("surgeonLimits").addObject().put("limit", "no-jumping");
    String caseId = rehab.put("limits", person);
    rehab.test(caseId, Knee.weak().on(TESTED));

    JsonNode plan = rehab.plan(caseId, "delaware-oslo/2020.1", TESTED);
    JsonNode hop = item(plan, "single-hop-symmetry");

    assertThat(hop.path("retest").path("heldBack").path("by").asString()).isEqualTo("no-jumping");
    assertThat(hop.path("focusAreas").path(0).path("exercises").valueStream())
        .isNotEmpty()
        .allSatisfy(
            e -> assertThat(e.path("heldBack").path("by").asString()).isEqualTo("no-jumping"));
    assertThat(item(plan, "knee-extension-symmetry").path("retest").has("heldBack")).isFalse();
    assertThat(plan.path("modifiers").valueStream().map(m -> m.path("code").asString()))
        .containsExactlyInAnyOrder("hamstring-graft", "no-jumping");
  }

  @Test
  void limitThatHasEnded_holdsNothingBack() {
    ObjectNode person = Rehab.person(SURGERY);
    ObjectNode limit = person.putArray("surgeonLimits").addObject().put("limit", "no-jumping");
    limit.put("until", TESTED.minusDays(1).toString());
    String caseId = rehab.put("ended", person);
    rehab.test(caseId, Knee.weak().on(TESTED));

    JsonNode plan = rehab.plan(caseId, "delaware-oslo/2020.1", TESTED);

    assertThat(plan.path("modifiers").valueStream().map(m -> m.path("code").asString()))
        .containsExactly("hamstring-graft");
  }

  private static final String CALM =
      """
      "redFlags": {"calfPain": "no", "calfSwelling": "%s", "calfPittingOedema": "no",
        "veinTenderness": "no", "chestPain": "no", "breathlessness": "no", "coughingBlood": "no",
        "fever": "no", "hotKnee": "no", "woundDischarge": "no", "givingWay": "%s",
        "locking": "no", "popOrTwist": "no", "numbness": "no", "footColourChange": "no",
        "nightPain": "no"}
      """;

  private static String run(String givingWay) {
    return """
        {"work": {"running": [{"progression": {"id": "running-eight-levels", "level": 2,
            "levelBefore": 1}, "surface": "track",
          "planned": {"runDistance": {"value": 1609, "unit": "m"}},
          "completed": {"runDistance": {"value": 1609, "unit": "m"}}}]},
         "response": {"pain": {"before": 0, "worst": 5}, "effusion": {"method": "stroke-test",
           "before": "zero", "after": "zero"}}, %s}
        """
        .formatted(CALM.formatted("no", givingWay));
  }

  @Test
  void trainingRecord_bringsTheNextRunningLevelAndItsReason() {
    String caseId = rehab.put("runner", Rehab.person(SURGERY));
    rehab.test(caseId, Knee.weak().on(TESTED));
    rehab.train(caseId, TESTED, run("no"));

    JsonNode plan = rehab.plan(caseId, "kyritsis-2016-discharge/1", TESTED.plusDays(1));
    JsonNode running = plan.at("/training/running/0");

    assertThat(running.path("code").asString()).isEqualTo("running-eight-levels");
    assertThat(running.path("level").asInt()).isEqualTo(2);
    assertThat(running.path("outcome").asString()).isNotEqualTo("advance");
    assertThat(plan.at("/training/redFlagsStanding").asInt()).isZero();
    assertThat(plan.at("/phase/code").asString()).isEqualTo("sport-specific");
  }

  @Test
  void standingRedFlag_goesBeforeThePlan() {
    String caseId = rehab.put("flagged", Rehab.person(SURGERY));
    rehab.test(caseId, Knee.weak().on(TESTED));
    rehab.train(caseId, TESTED, run("yes"));

    JsonNode plan = rehab.plan(caseId, "kyritsis-2016-discharge/1", TESTED.plusDays(1));

    assertThat(plan.at("/training/outcome").asString()).isEqualTo("stop-and-refer");
    assertThat(plan.at("/training/redFlagsStanding").asInt()).isPositive();
  }

  @Test
  void exercisesOfALaterPhase_areMarkedSo() {
    String caseId = rehab.put("phase", Rehab.person(SURGERY));
    rehab.test(caseId, Knee.weak().on(TESTED));

    JsonNode plan = rehab.plan(caseId, "adams-2012-progression-entry/1", TESTED);
    JsonNode confident = rehab.plan(caseId, "gokeler-welling/2018.1", TESTED);

    assertThat(plan.at("/phase/code").asString()).isEqualTo("strength-and-agility");
    assertThat(plan.has("training")).isFalse();
    assertThat(usuallyLater(item(plan, "single-hop-symmetry"))).isFalse();
    assertThat(usuallyLater(item(confident, "acl-rsi"))).isFalse();
    JsonNode running = rehab.plan(caseId, "rambaud-2018-running/1", TESTED);
    assertThat(usuallyLater(item(running, "knee-extension-symmetry"))).isTrue();
  }

  private static boolean usuallyLater(JsonNode item) {
    return item.at("/focusAreas/0/exercises/0/usuallyLater").asBoolean();
  }

  @Test
  void metSet_leavesNothingToDo() {
    String caseId = rehab.put("done", Rehab.person(SURGERY));
    rehab.test(
        caseId,
        Tests.on(TESTED)
            .torque("knee-extension-peak-torque", 190, 200)
            .torque("knee-flexion-peak-torque", 95, 100)
            .hop("single-hop-distance", 150, 150));
    JsonNode plan = rehab.plan(caseId, "cristiani-2019-symmetry/1", TESTED);
    assertThat(plan.path("outcome").asString()).isEqualTo("met");
    assertThat(plan.path("items").isEmpty()).isTrue();
  }

  @ParameterizedTest
  @CsvSource({
    "start-jumping, , #/milestone milestone.no-usual-set",
    ", , #/milestone milestone.no-usual-set",
    ", delaware-oslo/1999, #/criteriaSet criteria-set.unknown",
  })
  void goalWithoutASet_isRefusedWithTheMilestonesThatHaveOne(
      String milestone, String set, String fault) {
    String caseId = rehab.put("no-set", Rehab.person(SURGERY));
    Wanted goal =
        new Wanted(Optional.ofNullable(milestone), Optional.ofNullable(set), Optional.of(TESTED));
    assertThatThrownBy(() -> rehab.service.recovery().plan(Rehab.CLINIC, caseId, goal))
        .isInstanceOfSatisfying(
            Refused.class,
            refused ->
                assertThat(refused.faults().stream())
                    .extracting(one -> one.pointer() + " " + one.code(), Fault::limit)
                    .containsExactly(
                        tuple(
                            fault,
                            Optional.of(
                                "milestones with a usual set: return-to-competition,"
                                    + " start-progression, start-running,"
                                    + " symmetry-checkpoint"))));
  }
}
