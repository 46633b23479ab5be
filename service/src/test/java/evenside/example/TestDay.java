package evenside.example;

import java.util.function.Consumer;
import java.util.function.Predicate;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** One day of tests of an invented person whose left knee was operated, as a clinic sends it. */
public final class TestDay {
  /** The operated side of every invented person. */
  public static final String OPERATED = "left";

  public static final String OTHER = "right";

  private final ObjectNode json = JsonNodeFactory.instance.objectNode();
  private final ObjectNode results;
  private ObjectNode last;

  private TestDay(String performedAt) {
    json.put("schemaVersion", "1.0").put("performedAt", performedAt);
    json.put("operatedSide", OPERATED);
    results = json.putObject("results");
    last = results;
  }

  public static TestDay at(String performedAt) {
    return new TestDay(performedAt);
  }

  /** A day on which the person meets every published set that needs nothing from before surgery. */
  public static TestDay meetingEverything(String performedAt) {
    TestDay day = at(performedAt).bodyMass(80).height(180);
    for (String side : new String[] {OPERATED, OTHER}) {
      day.extension(side, 60, 260).extension(side, 180, 190).extension(side, 300, 150);
      day.flexion(side, 60, 160).flexion(side, 180, 130).flexion(side, 300, 105);
      day.hop("single-hop-distance", side, 180).hop("triple-hop-distance", side, 560);
      day.hop("crossover-hop-distance", side, 520).timedHop(side, 1.9).sideHops(side, 50);
      day.extensionDeficit(side, 0).flexionRange(side, 140);
    }
    return day.tTest(10.4)
        .landing(3)
        .effusion(OPERATED, "zero")
        .pain(OPERATED, "during-activity", 0)
        .score("kos-adls", 96)
        .score("global-rating", 95)
        .score("ikdc-subjective", 94)
        .score("acl-rsi", 80)
        .fact("on-field-programme-completed", true)
        .fact("movement-quality-acceptable", true)
        .fact("ikdc-within-reference-range", true);
  }

  public TestDay bodyMass(double kilograms) {
    json.putObject("bodyMass").put("value", kilograms).put("unit", "kg");
    return this;
  }

  public TestDay height(double centimetres) {
    json.putObject("height").put("value", centimetres).put("unit", "cm");
    return this;
  }

  /** Concentric extension torque at a speed in deg/s, in N.m. */
  public TestDay extension(String side, double speed, double... trials) {
    return isokinetic("knee-extension-peak-torque", side, speed, trials);
  }

  /** Concentric flexion torque at a speed in deg/s, in N.m. */
  public TestDay flexion(String side, double speed, double... trials) {
    return isokinetic("knee-flexion-peak-torque", side, speed, trials);
  }

  private TestDay isokinetic(String measure, String side, double speed, double... trials) {
    result("isokineticStrength", measure, side, "N.m").put("action", "concentric");
    last.putObject("speed").put("value", speed).put("unit", "deg/s");
    last.put("gravityCorrected", true);
    return trials(trials);
  }

  /** Isometric extension torque at a knee angle in deg, in N.m. */
  public TestDay isometricExtension(String side, double angle, String method, double... trials) {
    result("isometricStrength", "knee-extension-peak-torque", side, "N.m").put("method", method);
    last.putObject("angle").put("value", angle).put("unit", "deg");
    last.put("gravityCorrected", true);
    return trials(trials);
  }

  /** Distance of a hop test in cm. */
  public TestDay hop(String measure, String side, double... trials) {
    result("hopDistance", measure, side, "cm");
    return trials(trials);
  }

  /** Time of the six-metre hop in s. */
  public TestDay timedHop(String side, double... trials) {
    result("hopTime", "timed-6m-hop", side, "s").put("timing", "gate");
    return trials(trials);
  }

  public TestDay sideHops(String side, int hops) {
    result("hopCount", "side-hop-count", side, "{hops}").putArray("trials").addObject();
    ((ObjectNode) last.at("/trials/0")).put("value", hops);
    return this;
  }

  /** Time of the agility run in s. */
  public TestDay tTest(double... trials) {
    result("agilityTime", "agility-t-test", "", "s").put("timing", "gate");
    return trials(trials);
  }

  public TestDay landing(double... errors) {
    result("landingScore", "landing-error-score", "", "{errors}").put("version", "items-17");
    last.put("maximum", 19);
    return trials(errors);
  }

  /** Extension deficit in deg. */
  public TestDay extensionDeficit(String side, double... trials) {
    result("motion", "knee-extension-deficit", side, "deg").put("method", "goniometer");
    return trials(trials);
  }

  /** Range of flexion in deg. */
  public TestDay flexionRange(String side, double... trials) {
    result("motion", "knee-flexion-range", side, "deg").put("method", "goniometer");
    return trials(trials);
  }

  public TestDay effusion(String side, String grade) {
    result("effusion", "knee-effusion-grade", side, "");
    last.put("method", "stroke-test").put("grade", grade);
    return this;
  }

  public TestDay pain(String side, String context, double rating) {
    result("pain", "knee-pain", side, "{score}").put("context", context).put("value", rating);
    return this;
  }

  /** The reported score of a questionnaire whose only score is called as itself. */
  public TestDay score(String questionnaire, double total) {
    ObjectNode sheet = JsonNodeFactory.instance.objectNode().put("instrument", questionnaire);
    sheet.putArray("scores").addObject().put("measure", questionnaire).put("score", total);
    add("questionnaire", sheet);
    return this;
  }

  /** A questionnaire with one answer, too few for a score. */
  public TestDay tooFewAnswers(String questionnaire) {
    ObjectNode sheet = JsonNodeFactory.instance.objectNode().put("instrument", questionnaire);
    sheet.putArray("responses").addObject().put("item", "1").put("answer", 0);
    add("questionnaire", sheet);
    return this;
  }

  public TestDay fact(String fact, boolean holds) {
    result("clinicianFact", fact, "", "").put("value", holds);
    return this;
  }

  public TestDay notPerformed(String measure, String side, String reason) {
    result("notPerformed", measure, side, "").put("reason", reason);
    return this;
  }

  public TestDay notPerformed(String measure, String reason) {
    return notPerformed(measure, "", reason);
  }

  /** Changes the result that was added last. */
  public TestDay last(Consumer<ObjectNode> change) {
    change.accept(last);
    return this;
  }

  /** Adds an attempt that does not count to the result that was added last. */
  public TestDay invalid(double value, String reason) {
    ((ArrayNode) last.path("trials")).addObject().put("value", value).put("invalidReason", reason);
    return this;
  }

  /** True if a result, or a score that a questionnaire reports, is of a measure. */
  public static boolean isOf(String measure, JsonNode result) {
    return result.path("measure").asString("").equals(measure)
        || result.at("/scores/0/measure").asString("").equals(measure);
  }

  public TestDay without(String measure) {
    return without(result -> isOf(measure, result));
  }

  public TestDay without(String measure, String side) {
    return without(
        result -> isOf(measure, result) && result.path("side").asString("").equals(side));
  }

  /** Takes out the results that a condition names, and families that are empty then. */
  public TestDay without(Predicate<JsonNode> condition) {
    results.forEach(family -> ((ArrayNode) family).removeIf(condition));
    results.removeIf(JsonNode::isEmpty);
    return this;
  }

  public TestDay recordId(String id) {
    json.put("recordId", id);
    return this;
  }

  /** A copy of the document. */
  public ObjectNode json() {
    return json.deepCopy();
  }

  private TestDay trials(double... values) {
    ArrayNode trials = last.putArray("trials");
    for (double value : values) {
      trials.addObject().put("value", value);
    }
    return this;
  }

  private ObjectNode result(String family, String measure, String side, String unit) {
    ObjectNode result = JsonNodeFactory.instance.objectNode().put("measure", measure);
    if (!side.isEmpty()) {
      result.put("side", side);
    }
    if (!unit.isEmpty()) {
      result.put("unit", unit);
    }
    add(family, result);
    return result;
  }

  private void add(String family, ObjectNode result) {
    results.withArray(family).add(result);
    // The tree keeps what it is given, so later changes show in the document.
    last = result;
  }
}
