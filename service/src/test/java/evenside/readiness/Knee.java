package evenside.readiness;

import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/** What somebody can do on a day, all tests; the left leg was operated. */
public final class Knee {
  /** Smallest step of a number with decimals; the rest is sent whole. */
  private static final double STEP = 1e-6;

  private static final Set<String> WHOLE =
      Set.of(
          "side-hop-count",
          "landing-error-score",
          "kos-adls",
          "global-rating",
          "ikdc-subjective",
          "acl-rsi");

  /** By measure and speed: the operated leg, and the other where there is one. */
  private final Map<String, double[]> numbers = new LinkedHashMap<>();

  private final Map<String, Boolean> facts = new LinkedHashMap<>();
  private String effusion = "1+";

  /** Short of every published bound. */
  public static Knee weak() {
    Knee knee = new Knee();
    for (int speed : new int[] {60, 180, 300}) {
      knee.numbers.put("knee-extension-peak-torque " + speed, new double[] {120, 179});
      knee.numbers.put("knee-flexion-peak-torque " + speed, new double[] {60, 91});
    }
    knee.numbers.put("single-hop-distance", new double[] {110, 163});
    knee.numbers.put("triple-hop-distance", new double[] {330, 487});
    knee.numbers.put("crossover-hop-distance", new double[] {300, 449});
    knee.numbers.put("timed-6m-hop", new double[] {2.9, 1.97});
    knee.numbers.put("side-hop-count", new double[] {30, 47});
    knee.numbers.put("agility-t-test", new double[] {12.4});
    knee.numbers.put("landing-error-score", new double[] {7});
    knee.numbers.put("kos-adls", new double[] {80});
    knee.numbers.put("global-rating", new double[] {70});
    knee.numbers.put("ikdc-subjective", new double[] {70});
    knee.numbers.put("acl-rsi", new double[] {40});
    knee.numbers.put("knee-pain", new double[] {4});
    knee.numbers.put("knee-flexion-range", new double[] {110, 140});
    knee.numbers.put("knee-extension-deficit", new double[] {6, 0});
    knee.facts.put("on-field-programme-completed", false);
    knee.facts.put("ikdc-within-reference-range", false);
    return knee;
  }

  /** Leaves a test out. */
  public Knee without(String key) {
    numbers.remove(key);
    return this;
  }

  /** Brings a test to exactly what an item of a plan asks for, and nothing else. */
  public void reach(JsonNode item, double other) {
    String measure = item.path("measure").asString();
    JsonNode finding = item.path("finding");
    switch (finding.path("type").asString()) {
      case "grade" -> effusion = finding.path("bound").path("value").asString();
      case "fact" -> facts.put(measure, finding.path("bound").path("value").asBoolean());
      default -> number(measure, item, other);
    }
  }

  private void number(String measure, JsonNode item, double other) {
    if (item.path("deficits").isEmpty()) {
      // Not tested yet: both legs alike meet any bound on symmetry.
      numbers.put(measure, new double[] {other, other});
    }
    for (JsonNode deficit : item.path("deficits")) {
      JsonNode speed = deficit.path("protocol").path("speed").path("value");
      String key = speed.isNumber() ? measure + " " + speed.asInt() : measure;
      numbers.get(key)[0] = target(deficit.path("needed"), WHOLE.contains(measure));
    }
  }

  private static double target(JsonNode needed, boolean whole) {
    double value = needed.path("value").asDouble();
    return switch (needed.path("comparator").asString()) {
      case ">" -> whole ? Math.floor(value) + 1 : up(value) + STEP;
      case ">=" -> whole ? Math.ceil(value) : up(value);
      case "<" -> whole ? Math.ceil(value) - 1 : down(value) - STEP;
      default -> whole ? Math.floor(value) : down(value);
    };
  }

  /** Documents carry six decimals, so a target is rounded towards meeting it. */
  private static double up(double value) {
    return Math.ceil(value * 1e6 - 1e-3) / 1e6;
  }

  private static double down(double value) {
    return Math.floor(value * 1e6 + 1e-3) / 1e6;
  }

  public Tests on(LocalDate day) {
    Tests tests = Tests.on(day).effusion(effusion);
    facts.forEach(tests::fact);
    numbers.forEach((key, legs) -> add(tests, key, legs));
    return tests;
  }

  private static void add(Tests tests, String key, double[] legs) {
    String[] parts = key.split(" ");
    String measure = parts[0];
    if (parts.length == 2) {
      tests.torque(measure, Integer.parseInt(parts[1]), legs[0], legs[1]);
      return;
    }
    switch (measure) {
      case "timed-6m-hop" -> tests.hopTime(legs[0], legs[1]);
      case "side-hop-count" -> tests.hopCount((int) legs[0], (int) legs[1]);
      case "agility-t-test" -> tests.time(measure, legs[0]);
      case "landing-error-score" -> tests.landingErrors((int) legs[0]);
      case "knee-pain" -> tests.pain(legs[0]);
      case "knee-flexion-range", "knee-extension-deficit" ->
          tests.motion(measure, legs[0], legs[1]);
      case "kos-adls", "global-rating", "ikdc-subjective", "acl-rsi" ->
          tests.score(measure, legs[0]);
      default -> tests.hop(measure, legs[0], legs[1]);
    }
  }
}
