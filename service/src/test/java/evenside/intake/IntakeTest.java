package evenside.intake;

import static evenside.example.TestDay.OPERATED;
import static evenside.example.TestDay.OTHER;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.example.Clinic;
import evenside.example.TestDay;
import evenside.schemas.Fault;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * What a faulty document is told: every fault with its place, its code and the limit. The faults
 * are invented, one at a time; the limits are those of the schemas, the catalogue and the service.
 */
class IntakeTest {
  private static final String NOW = "2026-10-28T10:00:00+01:00";
  private static final String HOP = "single-hop-distance";

  /** A fault, and how to make it in a battery of one hop test of both legs. */
  private static Arguments bad(String fault, String limit, Consumer<ObjectNode> change) {
    return Arguments.of(fault, limit, change);
  }

  static Stream<Arguments> faults() {
    return Stream.of(
        bad("#/results/hopDistance/0/unnit member.unknown", "", b -> hop(b).put("unnit", "cm")),
        bad("#/results/hopDistance/0/unit unit.wrong", "cm", b -> hop(b).put("unit", "m")),
        bad(
            "#/performedAt date-time.invalid",
            "",
            b -> b.put("performedAt", "2026-10-28T10:00:00")),
        bad(
            "#/performedAt date-time.invalid",
            "",
            b -> b.put("performedAt", "2026-02-30T10:00:00Z")),
        bad(
            "#/performedAt time.in-future",
            "5 minutes",
            b -> b.put("performedAt", "2026-11-02T12:05:01Z")),
        bad(
            "#/performedAt value.implausible",
            "from 1900-01-01 on",
            b -> b.put("performedAt", "0026-10-28T10:00:00Z")),
        bad(
            "#/recordedAt time.in-future",
            "5 minutes",
            b -> b.put("recordedAt", "2027-01-01T00:00:00Z")),
        bad("#/operatedSide side.contradicts-case", "left", b -> b.put("operatedSide", "right")),
        bad("#/results/hopDistance/0/trials trials.none-valid", "", IntakeTest::noValidTrial),
        bad("#/results/hopDistance/0/trials/0/value number.below-minimum", "0", b -> trial(b, -1)),
        bad(
            "#/results/hopDistance/0/trials/0/value value.implausible",
            "0 to 300 cm",
            b -> trial(b, 301)),
        bad(
            "#/results/hopDistance/0/measure value.not-allowed",
            HOP,
            b -> hop(b).put("measure", "standing-jump")),
        bad("#/results/hopDistance/1 result.duplicate", "", b -> hop(b, 1).put("side", OPERATED)),
        bad(
            "#/results/hopDistance/0/trials/0/value number.too-precise",
            "6 decimal places",
            b -> trial(b, 150.1234567)),
        bad(
            "#/bodyMass/value number.too-precise",
            "6 decimal places",
            b -> b.putObject("bodyMass").put("value", 80.0000001).put("unit", "kg")),
        bad("#/results/notPerformed/0/measure measure.unknown", "", IntakeTest::unknownLeftOut),
        bad(
            "#/mustUnderstand/0 extension.not-understood",
            "",
            b -> b.putArray("mustUnderstand").add("org.example.x")),
        bad("#/extensions extension.too-large", "16 KiB", IntakeTest::largeExtension));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("faults")
  void faultOfABattery_isNamedWithPlaceCodeAndLimit(
      String fault, String limit, Consumer<ObjectNode> change) {
    ObjectNode battery = hops();
    change.accept(battery);
    List<Fault> faults = Papers.checkForCase(battery).faults();
    assertThat(Papers.brief(faults)).containsExactly(fault);
    if (!limit.isEmpty()) {
      assertThat(faults.get(0).limit().orElse("")).contains(limit);
    }
  }

  @Test
  void batteryWithoutFault_isAccepted() {
    assertThat(Papers.checkForCase(hops()).faults()).isEmpty();
    assertThat(Papers.checkForCase(TestDay.meetingEverything(NOW).json()).faults()).isEmpty();
  }

  /** Faults of the schema and of the rules together, each once, sorted, and no follow-up. */
  @Test
  void severalFaultsAtOnce_areAllNamedAndNothingElse() {
    ObjectNode battery = hops();
    battery.put("performedAt", "2027-10-28T10:00:00+01:00").put("operatedSide", "right");
    hop(battery).put("unit", "m");
    battery.put("colour", "red");
    trial(battery, 950.12345678);
    hop(battery, 1).put("side", OPERATED);
    battery.putArray("mustUnderstand").add("org.example.x");
    ObjectNode second = TestDay.at(NOW).pain(OPERATED, "rest", 11).json();
    ((ObjectNode) battery.path("results")).set("pain", second.at("/results/pain"));
    assertThat(Papers.brief(Papers.checkForCase(battery).faults()))
        .containsExactly(
            "#/colour member.unknown",
            "#/mustUnderstand/0 extension.not-understood",
            "#/operatedSide side.contradicts-case",
            "#/performedAt time.in-future",
            "#/results/hopDistance/0/trials/0/value number.above-maximum",
            "#/results/hopDistance/0/unit unit.wrong",
            "#/results/hopDistance/1 result.duplicate",
            "#/results/pain/0/value number.above-maximum");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "null",
        "[]",
        "5",
        "\"text\"",
        "{}",
        "{\"results\":[]}",
        "{\"results\":{\"pain\":5}}"
      })
  void documentOfAnyShape_getsFaultsAndNoException(String text) {
    JsonNode odd = tools.jackson.databind.json.JsonMapper.shared().readTree(text);
    for (String kind :
        List.of("case", "battery", "criteria-set", "decision-request", "assessment-request")) {
      assertThat(Papers.check(kind, odd).valid()).as(kind).isFalse();
    }
  }

  /** In the document as it was sent, also where the battery is a part of it. */
  @Test
  void duplicate_namesThePlaceOfTheOther() {
    TestDay day = TestDay.at(NOW).hop(HOP, OPERATED, 150).hop(HOP, OPERATED, 160);
    assertThat(Papers.checkForCase(day.json()).faults())
        .singleElement()
        .satisfies(fault -> assertThat(fault.detail()).contains(" #/results/hopDistance/0 "));
    JsonNode request = Clinic.request(Clinic.person(), List.of("delaware-oslo/2020.1"), day);
    assertThat(Papers.check("assessment-request", request).faults())
        .singleElement()
        .satisfies(
            fault -> assertThat(fault.detail()).contains(" #/batteries/0/results/hopDistance/0 "));
  }

  /** One side done and the other not is no contradiction; a side left out means both. */
  @ParameterizedTest
  @CsvSource({
    "single-hop-distance, left, #/results/hopDistance/0",
    "single-hop-distance, '', #/results/hopDistance/0",
    "single-hop-distance, right, ''",
    "triple-hop-distance, left, ''",
    "landing-error-score, '', #/results/landingScore/0",
    "ikdc-subjective, '', #/results/questionnaire/0",
    "koos-pain, '', ''",
  })
  void testBothDoneAndNotPerformed_isAFaultThatNamesTheResult(
      String measure, String side, String result) {
    TestDay day = TestDay.at(NOW).hop(HOP, OPERATED, 150).landing(3).score("ikdc-subjective", 90);
    ObjectNode battery = day.json();
    ObjectNode missing =
        battery.withObject("/results").putArray("notPerformed").addObject().put("measure", measure);
    missing.put("reason", "pain");
    if (!side.isEmpty()) {
      missing.put("side", side);
    }
    List<Fault> faults = Papers.checkForCase(battery).faults();
    if (result.isEmpty()) {
      assertThat(faults).isEmpty();
    } else {
      assertThat(Papers.brief(faults))
          .containsExactly("#/results/notPerformed/0 not-performed.contradicts-result");
      assertThat(faults.get(0).detail()).contains(" " + result + ";").contains("leave");
    }
  }

  @Test
  void sameTestDoneAnotherWay_isNoDuplicate() {
    TestDay day = TestDay.at(NOW).extension(OPERATED, 60, 150).extension(OPERATED, 180, 120);
    day.extension(OPERATED, 60, 150).last(result -> result.put("device", "dyn-2"));
    day.pain(OPERATED, "rest", 1).pain(OPERATED, "worst-24h", 2);
    assertThat(Papers.checkForCase(day.json()).faults()).isEmpty();
    TestDay twice = TestDay.at(NOW).extension(OPERATED, 60, 150).extension(OPERATED, 60, 151);
    twice.last(result -> result.put("aggregation", "mean"));
    assertThat(Papers.brief(Papers.checkForCase(twice.json()).faults()))
        .containsExactly("#/results/isokineticStrength/1 result.duplicate");
  }

  @Test
  void clockOfTheSender_mayBeFiveMinutesAhead() {
    ObjectNode battery = hops().put("performedAt", "2026-11-02T12:05:00Z");
    assertThat(Papers.checkForCase(battery).faults()).isEmpty();
  }

  @Test
  void gravityNotStated_isAWarningAndNoFault() {
    TestDay day = TestDay.at(NOW).extension(OPERATED, 60, 150);
    day.last(result -> result.remove("gravityCorrected"));
    Checked checked = Papers.checkForCase(day.json());
    assertThat(checked.valid()).isTrue();
    assertThat(Papers.brief(checked.warnings()))
        .containsExactly("#/results/isokineticStrength/0/gravityCorrected gravity.not-stated");
  }

  static Stream<Arguments> peopleWithFaults() {
    return Stream.of(
        bad("#/surgeryDate date.in-future", "2026-11-03", p -> p.put("surgeryDate", "2026-11-04")),
        bad("#/surgeryDate date.invalid", "", p -> p.put("surgeryDate", "2026-02-30")),
        bad("#/birthYear value.implausible", "5 to 100", p -> p.put("birthYear", 2021)),
        bad(
            "#/graftHarvestSide graft.not-harvested",
            "",
            p -> p.put("graft", "allograft").put("graftHarvestSide", "right")),
        bad(
            "#/mustUnderstand/0 extension.not-understood",
            "",
            p -> p.putArray("mustUnderstand").add("org.example.x")));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("peopleWithFaults")
  void faultOfACase_isNamedWithPlaceCodeAndLimit(
      String fault, String limit, Consumer<ObjectNode> change) {
    ObjectNode person = Clinic.person();
    change.accept(person);
    List<Fault> faults = Papers.check("case", person).faults();
    assertThat(Papers.brief(faults)).containsExactly(fault);
    assertThat(faults.get(0).limit().orElse("")).contains(limit);
  }

  /** At noon UTC it is already the next day at +14:00, the furthest east. */
  @Test
  void surgeryToday_isTodayAnywhere() {
    ObjectNode person = Clinic.person().put("surgeryDate", "2026-11-03");
    assertThat(Papers.check("case", person).faults()).isEmpty();
  }

  static Stream<Arguments> requestsWithFaults() {
    return Stream.of(
        bad("#/criteriaSet criteria-set.unknown", "", r -> set(r, "delaware-oslo", "1999")),
        bad(
            "#/criteriaSet criteria-set.other-milestone",
            "start-running",
            r -> r.put("milestone", "start-running")),
        bad("#/asOf date.in-future", "2026-11-03", r -> r.put("asOf", "2026-11-04")),
        bad(
            "#/milestone milestone.no-usual-set",
            "start-running",
            r -> without(r).put("milestone", "start-jumping")));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("requestsWithFaults")
  void faultOfADecisionRequest_isNamed(String fault, String limit, Consumer<ObjectNode> change) {
    ObjectNode request = Clinic.person().objectNode().put("schemaVersion", "1.0");
    set(request, "delaware-oslo", "2020.1");
    assertThat(Papers.check("decision-request", request).faults()).isEmpty();
    change.accept(request);
    List<Fault> faults = Papers.check("decision-request", request).faults();
    assertThat(Papers.brief(faults)).containsExactly(fault);
    assertThat(faults.get(0).limit().orElse("")).contains(limit);
  }

  @Test
  void faultsInsideAnAssessment_areNamedWhereTheyStand() {
    ObjectNode person = Clinic.person().put("birthYear", 2021).put("colour", "red");
    TestDay day =
        TestDay.at("2027-01-01T10:00:00Z").hop(HOP, OPERATED, 150).hop(HOP, OPERATED, 160);
    ObjectNode request =
        Clinic.request(
            person, List.of("delaware-oslo/2020.1", "delaware-oslo/2020.1", "no-such/1"), day);
    ((ObjectNode) request.at("/batteries/0")).put("operatedSide", "right");
    request.put("asOf", "2025-01-01");
    assertThat(Papers.brief(Papers.check("assessment-request", request).faults()))
        .containsExactly(
            "#/asOf date.before-surgery",
            "#/batteries/0/operatedSide side.contradicts-case",
            "#/batteries/0/performedAt time.in-future",
            "#/batteries/0/results/hopDistance/1 result.duplicate",
            "#/case/birthYear value.implausible",
            "#/case/colour member.unknown",
            "#/criteriaSets/1 criteria-set.duplicate",
            "#/criteriaSets/2 criteria-set.unknown");
  }

  private static ObjectNode hops() {
    return TestDay.at(NOW).hop(HOP, OPERATED, 150).hop(HOP, OTHER, 160).json();
  }

  private static ObjectNode hop(ObjectNode battery) {
    return hop(battery, 0);
  }

  private static ObjectNode hop(ObjectNode battery, int index) {
    return (ObjectNode) battery.at("/results/hopDistance/" + index);
  }

  private static void trial(ObjectNode battery, double value) {
    ((ObjectNode) battery.at("/results/hopDistance/0/trials/0"))
        .put("value", java.math.BigDecimal.valueOf(value));
  }

  private static void noValidTrial(ObjectNode battery) {
    ((ObjectNode) battery.at("/results/hopDistance/0/trials/0"))
        .put("invalidReason", "landing-not-held");
  }

  private static void unknownLeftOut(ObjectNode battery) {
    ObjectNode results = (ObjectNode) battery.path("results");
    results.putArray("notPerformed").addObject().put("measure", "long-jump").put("reason", "time");
  }

  private static void largeExtension(ObjectNode battery) {
    ObjectNode extensions = battery.putObject("extensions");
    for (int i = 0; i < 3; i++) {
      extensions.put("org.example.k" + i, "x".repeat(6_000));
    }
  }

  private static ObjectNode set(ObjectNode request, String id, String version) {
    request.putObject("criteriaSet").put("id", id).put("version", version);
    return request;
  }

  private static ObjectNode without(ObjectNode request) {
    request.remove("criteriaSet");
    return request;
  }
}
