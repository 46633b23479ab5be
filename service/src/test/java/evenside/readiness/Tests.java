package evenside.readiness;

import java.time.LocalDate;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** One day of tests of somebody whose left knee was operated. */
public final class Tests {
  private final ObjectNode json = JsonNodeFactory.instance.objectNode();

  private Tests(LocalDate day) {
    json.put("schemaVersion", "1.0").put("operatedSide", "left");
    json.put("performedAt", day + "T10:00:00+01:00");
    json.putObject("results");
  }

  public static Tests on(LocalDate day) {
    return new Tests(day);
  }

  /** Knee extension or flexion at 60 deg/s, concentric, operated leg first. */
  public Tests torque(String measure, double operated, double other) {
    return torque(measure, 60, operated, other);
  }

  public Tests torque(String measure, int speed, double operated, double other) {
    strength(measure, speed, "left", operated);
    return strength(measure, speed, "right", other);
  }

  private Tests strength(String measure, int speed, String side, double value) {
    ObjectNode result = add("isokineticStrength", measure).put("side", side);
    result.put("action", "concentric").put("unit", "N.m");
    result.putObject("speed").put("value", speed).put("unit", "deg/s");
    return trial(result, value);
  }

  public Tests hop(String measure, double operated, double other) {
    trial(add("hopDistance", measure).put("side", "left").put("unit", "cm"), operated);
    return trial(add("hopDistance", measure).put("side", "right").put("unit", "cm"), other);
  }

  public Tests hopTime(double operated, double other) {
    String measure = "timed-6m-hop";
    timed(trialless("hopTime", measure, "left"), operated);
    return timed(trialless("hopTime", measure, "right"), other);
  }

  private Tests timed(ObjectNode result, double value) {
    result.put("unit", "s").put("timing", "gate");
    return trial(result, value);
  }

  public Tests hopCount(int operated, int other) {
    trial(trialless("hopCount", "side-hop-count", "left").put("unit", "{hops}"), operated);
    return trial(trialless("hopCount", "side-hop-count", "right").put("unit", "{hops}"), other);
  }

  private ObjectNode trialless(String family, String measure, String side) {
    return add(family, measure).put("side", side);
  }

  public Tests landingErrors(int errors) {
    ObjectNode result = add("landingScore", "landing-error-score").put("unit", "{errors}");
    result.put("version", "items-17").put("maximum", 19);
    return trial(result, errors);
  }

  public Tests score(String instrument, double score) {
    ObjectNode form = json.withObject("/results").withArray("questionnaire").addObject();
    form.put("instrument", instrument);
    form.putArray("scores").addObject().put("measure", instrument).put("score", score);
    return this;
  }

  public Tests effusion(String grade) {
    ObjectNode result = add("effusion", "knee-effusion-grade").put("side", "left");
    result.put("grade", grade).put("method", "stroke-test");
    return this;
  }

  public Tests pain(double value) {
    ObjectNode result = add("pain", "knee-pain").put("side", "left").put("unit", "{score}");
    result.put("context", "worst-24h").put("value", value);
    return this;
  }

  public Tests motion(String measure, double operated, double other) {
    trial(moved(measure, "left"), operated);
    return trial(moved(measure, "right"), other);
  }

  private ObjectNode moved(String measure, String side) {
    ObjectNode result = add("motion", measure).put("side", side).put("unit", "deg");
    return result.put("method", "goniometer");
  }

  public Tests time(String measure, double seconds) {
    ObjectNode result = add("agilityTime", measure).put("unit", "s").put("timing", "gate");
    return trial(result, seconds);
  }

  public Tests fact(String measure, boolean holds) {
    add("clinicianFact", measure).put("value", holds);
    return this;
  }

  public Tests bodyMass(double kilograms) {
    json.putObject("bodyMass").put("value", kilograms).put("unit", "kg");
    return this;
  }

  /** Says that these tests correct an earlier battery. */
  public Tests replacing(String batteryId) {
    json.put("replaces", batteryId);
    return this;
  }

  public JsonNode json() {
    return json;
  }

  private ObjectNode add(String family, String measure) {
    return json.withObject("/results").withArray(family).addObject().put("measure", measure);
  }

  private Tests trial(ObjectNode result, double value) {
    result.putArray("trials").addObject().put("value", value);
    return this;
  }
}
