package evenside.example;

import java.math.BigDecimal;
import java.util.Map;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Makes a measure of the operated leg so bad that every published bound on it fails. */
public final class Worse {
  private static final Map<String, Double> BAD =
      Map.ofEntries(
          Map.entry("knee-extension-peak-torque", 30.0),
          Map.entry("knee-flexion-peak-torque", 20.0),
          Map.entry("single-hop-distance", 40.0),
          Map.entry("triple-hop-distance", 120.0),
          Map.entry("crossover-hop-distance", 110.0),
          Map.entry("timed-6m-hop", 9.5),
          Map.entry("side-hop-count", 4.0),
          Map.entry("agility-t-test", 19.0),
          Map.entry("landing-error-score", 14.0),
          Map.entry("knee-extension-deficit", 25.0),
          Map.entry("knee-flexion-range", 60.0),
          Map.entry("knee-pain", 9.0));

  private Worse() {}

  public static TestDay at(String measure, TestDay day) {
    return day.without(result -> worsened(measure, result));
  }

  /** Never true: nothing is taken out, the result is changed where it stands. */
  private static boolean worsened(String measure, JsonNode result) {
    boolean otherLeg = result.path("side").asString("").equals(TestDay.OTHER);
    if (TestDay.isOf(measure, result) && !otherLeg) {
      worsen((ObjectNode) result, BAD.getOrDefault(measure, 10.0));
    }
    return false;
  }

  private static void worsen(ObjectNode result, double bad) {
    if (result.has("trials")) {
      result
          .putArray("trials")
          .addObject()
          .put("value", BigDecimal.valueOf(bad).stripTrailingZeros());
    } else if (result.has("scores")) {
      ((ObjectNode) result.at("/scores/0")).put("score", bad);
    } else if (result.has("grade")) {
      result.put("grade", "3+");
    } else if (result.path("value").isBoolean()) {
      result.put("value", !result.path("value").asBoolean());
    } else {
      result.put("value", bad);
    }
  }
}
