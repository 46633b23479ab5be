package evenside.readiness;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Beside every symmetry stands how far it may be off, and how that is known. */
class IntervalsTest {
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  /** Reid (2007): SEM 3.49 points, so 1.96 × 3.49 = 6.84 either way. */
  @Test
  void published_errorOfTheIndex_comesFirst() {
    JsonNode interval = interval(hops("single-hop-distance", "best", 150, 150), 165, 165);
    assertThat(interval.path("method").asString()).isEqualTo("published-error");
    assertThat(interval.path("basis").asString()).isEqualTo("published-error-of-the-index");
    assertThat(interval.path("z").asDouble()).isEqualTo(1.96);
    assertThat(interval.path("low").asDouble()).isCloseTo(90.91 - 6.84, within(0.01));
    assertThat(interval.path("high").asDouble()).isCloseTo(90.91 + 6.84, within(0.01));
    assertThat(interval.path("verified").asBoolean()).isFalse();
  }

  /** Kivlan (2013): SEM 7.51 cm; 300 and 330 cm on the scale of logarithms, by hand. */
  @Test
  void published_errorOfTheScore_comesNext() {
    JsonNode interval = interval(hops("medial-triple-hop-distance", "best", 300), 330);
    assertThat(interval.path("method").asString()).isEqualTo("log-delta");
    assertThat(interval.path("basis").asString()).isEqualTo("published-error-of-the-score");
    assertThat(interval.path("rho").asDouble()).isZero();
    assertThat(interval.path("low").asDouble()).isCloseTo(85.0764, within(1e-4));
    assertThat(interval.path("high").asDouble()).isCloseTo(97.1416, within(1e-4));
  }

  /**
   * Trials 142 147 151 and 160 158 165, pooled: 0.857430 to 0.967531 by numpy 1.24.2 with the t of
   * scipy 1.10.1, cross-checked there by root finding.
   */
  @Test
  void trials_ofTheDay_whereNothingIsPublished() {
    JsonNode interval = interval(jumps(14.2, 14.7, 15.1), 16.0, 15.8, 16.5);
    assertThat(interval.path("method").asString()).isEqualTo("fieller");
    assertThat(interval.path("basis").asString()).isEqualTo("trials-within-day");
    assertThat(interval.path("z").asDouble()).isCloseTo(2.7764451052, within(1e-9));
    assertThat(interval.path("low").asDouble()).isCloseTo(85.7430, within(1e-4));
    assertThat(interval.path("high").asDouble()).isCloseTo(96.7531, within(1e-4));
    assertThat(interval.has("source")).isFalse();
  }

  /** The fewest trials there can be, 148 150 and 160 165: by scipy 1.17.1, t of two degrees. */
  @Test
  void trials_twoOfEachLeg() {
    JsonNode interval = interval(jumps(14.8, 15.0), 16.0, 16.5);
    assertThat(interval.path("z").asDouble()).isCloseTo(4.3026527297, within(1e-9));
    assertThat(interval.path("low").asDouble()).isCloseTo(85.07358387, within(1e-7));
    assertThat(interval.path("high").asDouble()).isCloseTo(98.77827354, within(1e-7));
  }

  /** The other leg cannot be told from zero: no numbers, and it says so. */
  @Test
  void trials_tooWild_haveNoBounds() {
    JsonNode interval = interval(jumps(2, 14, 27), 1, 16, 30);
    assertThat(interval.path("bounded").asBoolean()).isFalse();
    assertThat(interval.has("low")).isFalse();
    assertThat(interval.has("high")).isFalse();
    assertThat(interval.path("unbounded").asString()).isNotEmpty();
  }

  @Test
  void oneTrial_andNothingPublished_hasNoInterval() {
    assertThat(symmetry(jumps(14.2), 16.0).has("interval")).isFalse();
  }

  @Test
  void indices_onRequest_decideNothing() {
    ObjectNode battery = battery(hops("single-hop-distance", "best", 20), 25);
    ObjectNode request = Documents.request(battery, "delaware-oslo", "2020.1");
    JsonNode plain = Documents.tree(Documents.DESK.assess(request));
    request.putArray("indices").add("robinson-symmetry-index").add("symmetry-angle");
    JsonNode asked = Documents.tree(Documents.DESK.assess(request));
    JsonNode indices = asked.at("/symmetry/0/symmetry/0/indices");
    assertThat(indices.at("/0/value/value").asDouble()).isCloseTo(22.22, within(0.005));
    assertThat(indices.at("/0/atLimbSymmetry90").asDouble()).isCloseTo(10.53, within(0.005));
    assertThat(indices.at("/1/value/value").asDouble()).isCloseTo(7.04, within(0.005));
    assertThat(asked.path("decisions")).isEqualTo(plain.path("decisions"));
    assertThat(plain.at("/symmetry/0/symmetry/0").has("indices")).isFalse();
  }

  /** Less time is better: 2.20 s against 2.00 s is the same as 20 against 22. */
  @Test
  void indices_ofATime_areTurnedRound() {
    ObjectNode left = JSON.objectNode().put("measure", "timed-6m-hop").put("side", "left");
    left.put("unit", "s").putArray("trials").addObject().put("value", 2.2);
    ObjectNode battery = battery("hopTime", left, 2.0);
    ObjectNode request = Documents.request(battery, "delaware-oslo", "2020.1");
    request.putArray("indices").add("deficit");
    JsonNode symmetry = Documents.tree(Documents.DESK.assess(request)).at("/symmetry/0/symmetry/0");
    assertThat(symmetry.at("/indices/0/value/value").asDouble()).isCloseTo(9.09, within(0.005));
  }

  private static ObjectNode hops(String measure, String aggregation, double... operated) {
    ObjectNode result = JSON.objectNode().put("measure", measure).put("side", "left");
    result.put("unit", "cm").put("aggregation", aggregation);
    return trials(result, operated);
  }

  /** Heights from the drop jump: nothing is published about its error. */
  private static ObjectNode jumps(double... operated) {
    ObjectNode result = JSON.objectNode().put("measure", "drop-jump-height").put("side", "left");
    result.put("unit", "cm").put("method", "impulse").put("aggregation", "mean");
    result.putObject("boxHeight").put("value", 15).put("unit", "cm");
    return trials(result, operated);
  }

  private static ObjectNode trials(ObjectNode result, double... values) {
    ArrayNode trials = result.putArray("trials");
    for (double value : values) {
      trials.addObject().put("value", value);
    }
    return result;
  }

  private static JsonNode interval(ObjectNode left, double... other) {
    return symmetry(left, other).path("interval");
  }

  private static JsonNode symmetry(ObjectNode left, double... other) {
    return Documents.assess(battery(left, other)).at("/symmetry/0/symmetry/0");
  }

  private static ObjectNode battery(ObjectNode left, double... other) {
    boolean jump = left.path("measure").asString().equals("drop-jump-height");
    return battery(jump ? "dropJump" : "hopDistance", left, other);
  }

  private static ObjectNode battery(String family, ObjectNode left, double... other) {
    ObjectNode json = JSON.objectNode().put("schemaVersion", "1.0");
    json.put("performedAt", "2026-09-22T14:00:00+02:00").put("operatedSide", "left");
    ObjectNode right = trials(left.deepCopy().put("side", "right"), other);
    json.putObject("results").putArray(family).add(left).add(right);
    return json;
  }
}
