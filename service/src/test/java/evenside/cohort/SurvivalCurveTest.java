package evenside.cohort;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import evenside.cohort.SurvivalCurve.Followed;
import evenside.cohort.SurvivalCurve.Step;
import evenside.schemas.StrictJson;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;

class SurvivalCurveTest {

  /** Remission after leukaemia, the classic example; limits by another program, see the file. */
  static Stream<JsonNode> groups() throws Exception {
    try (InputStream in =
        SurvivalCurveTest.class.getResourceAsStream("/golden/kaplan_meier.json")) {
      return StrictJson.read(in.readAllBytes(), StrictJson.Limits.OWN).path("groups").valueStream();
    }
  }

  private static SurvivalCurve curve(JsonNode group) {
    List<Followed> people = new ArrayList<>();
    for (int i = 0; i < group.path("time").size(); i++) {
      people.add(
          new Followed(
              group.path("time").path(i).asInt(), group.path("event").path(i).asInt() == 1));
    }
    return SurvivalCurve.of(people);
  }

  /** Curve and limits by scipy 1.17.1; see the origin on top of the file. */
  @ParameterizedTest
  @MethodSource("groups")
  void curve_isThatOfAnotherProgram(JsonNode group) {
    SurvivalCurve curve = curve(group);
    for (int i = 0; i < group.path("at").size(); i++) {
      int at = group.path("at").path(i).asInt();
      Step step =
          curve.steps().stream()
              .filter(s -> s.days() <= at)
              .reduce((earlier, later) -> later)
              .orElseThrow();
      assertThat(step.survival())
          .isCloseTo(group.path("survival").path(i).asDouble(), within(1e-12));
      if (!group.path("low").path(i).isNull()) {
        assertThat(step.low()).isCloseTo(group.path("low").path(i).asDouble(), within(1e-9));
        assertThat(step.high()).isCloseTo(group.path("high").path(i).asDouble(), within(1e-9));
      }
    }
    assertThat(curve.median()).isEqualTo(whole(group.path("median")));
    assertThat(curve.medianLow()).isEqualTo(whole(group.path("medianLow")));
    assertThat(curve.medianHigh()).isEqualTo(whole(group.path("medianHigh")));
  }

  private static OptionalInt whole(JsonNode number) {
    return number.isNull() ? OptionalInt.empty() : OptionalInt.of(number.asInt());
  }

  /**
   * Printed by a university course from another program (product-limit estimates of the same data):
   * 0.8571, 0.8067, 0.7529 at 6, 7, 10 weeks; medians 23 and 8 (also printed by R in public texts).
   */
  @Test
  void curve_isAsPrinted() throws Exception {
    List<JsonNode> groups = groups().toList();
    SurvivalCurve treated = curve(groups.get(0));
    assertThat(treated.steps().stream().limit(3).map(Step::survival))
        .zipSatisfy(
            List.of(0.8571, 0.8067, 0.7529),
            (value, printed) -> assertThat(value).isCloseTo(printed, within(0.00005)));
    assertThat(treated.events()).isEqualTo(9);
    assertThat(treated.censored()).isEqualTo(12);
    assertThat(treated.median()).hasValue(23);
    assertThat(curve(groups.get(1)).median()).hasValue(8);
  }

  /** By definition: of an even number of people, all followed, half had the event by that day. */
  @Test
  void exactlyHalf_isTheMedianOfAnyNumberOfPeople() {
    for (int half = 1; half <= 200; half++) {
      List<Followed> people =
          IntStream.rangeClosed(1, 2 * half).mapToObj(day -> new Followed(day, true)).toList();
      assertThat(SurvivalCurve.of(people).median()).as("%d people", 2 * half).hasValue(half);
    }
  }

  @Test
  void nobody_hasNoMedian() {
    assertThat(SurvivalCurve.of(List.of()).median()).isEmpty();
  }

  @Test
  void everybodyCensored_hasNoMedian() {
    SurvivalCurve curve = SurvivalCurve.of(List.of(new Followed(100, false)));
    assertThat(curve.median()).isEmpty();
    assertThat(curve.censored()).isEqualTo(1);
  }

  @Test
  void person_censoredOnTheDayOfAnEvent_isStillAtRiskThatDay() {
    SurvivalCurve curve =
        SurvivalCurve.of(List.of(new Followed(10, true), new Followed(10, false)));
    assertThat(curve.steps().get(0).survival()).isEqualTo(0.5);
  }

  @Test
  void negativeTime_isRefused() {
    assertThatThrownBy(() -> new Followed(-1, true)).hasMessageContaining("-1");
  }
}
