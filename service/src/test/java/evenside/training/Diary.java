package evenside.training;

import java.time.LocalDate;
import java.util.List;
import java.util.function.Consumer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Invented entries of a training record, as documents. The left knee is the operated one. */
public final class Diary {
  /** First day of the invented records. */
  public static final LocalDate DAY_0 = LocalDate.parse("2026-03-02");

  /** Warning questions, by their members. */
  public static final List<String> QUESTIONS =
      List.of(
          "calfPain",
          "calfSwelling",
          "calfPittingOedema",
          "veinTenderness",
          "chestPain",
          "breathlessness",
          "coughingBlood",
          "fever",
          "hotKnee",
          "woundDischarge",
          "givingWay",
          "locking",
          "popOrTwist",
          "numbness",
          "footColourChange",
          "nightPain");

  private Diary() {}

  /** An entry without content. */
  public static ObjectNode entry(String recordId, String at) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("schemaVersion", "1.0").put("recordId", recordId);
    json.put("performedAt", at).put("operatedSide", "left");
    json.putObject("entry");
    return json;
  }

  /** A run of set A on a day, done in full with a quiet knee; the next morning is not known yet. */
  public static ObjectNode run(LocalDate day, int level) {
    return run("running-eight-levels", "2018", day, level);
  }

  /** A run of any set. */
  public static ObjectNode run(String set, String version, LocalDate day, int level) {
    ObjectNode json = training("run-" + day, day);
    ObjectNode run = work(json).putArray("running").addObject();
    run.putObject("progression").put("id", set).put("version", version).put("level", level);
    run.put("surface", "treadmill").put("path", "straight");
    run.putObject("planned").set("runTime", quantity(20, "min"));
    run.putObject("completed").set("runTime", quantity(20, "min"));
    return json;
  }

  /** A unit of training with a quiet knee and without work. */
  public static ObjectNode training(String recordId, LocalDate day) {
    ObjectNode json = entry(recordId, day + "T17:30:00+01:00");
    ObjectNode training = json.withObject("/entry").putObject("training");
    training.putObject("work");
    training.set("duration", quantity(30, "min"));
    training.put("effort", 3);
    ObjectNode response = training.putObject("response");
    response.putObject("pain").put("before", 0).put("worst", 0).put("afterOneHour", 0);
    response.putObject("soreness").put("warmUp", "none").put("afterOneHour", false);
    response
        .putObject("effusion")
        .put("method", "stroke-test")
        .put("before", "zero")
        .put("after", "zero");
    training.set("redFlags", noFlags());
    return json;
  }

  /** The quiet morning after a session. */
  public static ObjectNode morning(LocalDate after) {
    ObjectNode json = entry("morning-" + after, after.plusDays(1) + "T07:30:00+01:00");
    ObjectNode check = json.withObject("/entry").putObject("kneeCheck");
    check.put("completes", "run-" + after);
    ObjectNode response = check.putObject("response");
    response.putObject("pain").put("nextMorning", 0);
    response.putObject("soreness").put("nextDay", false);
    response.putObject("effusion").put("method", "stroke-test").put("nextMorning", "zero");
    return json;
  }

  /** The same entry, with something changed. */
  public static ObjectNode with(ObjectNode json, Consumer<ObjectNode> change) {
    change.accept(json);
    return json;
  }

  /** The response of an entry. */
  public static ObjectNode response(ObjectNode json) {
    return part(json).withObject("/response");
  }

  /** The red flags of an entry. */
  public static ObjectNode flags(ObjectNode json) {
    return part(json).withObject("/redFlags");
  }

  /** The work of a training. */
  public static ObjectNode work(ObjectNode json) {
    return json.withObject("/entry/training/work");
  }

  private static ObjectNode part(ObjectNode json) {
    JsonNode entry = json.path("entry");
    return json.withObject(entry.has("training") ? "/entry/training" : "/entry/kneeCheck");
  }

  /** Every warning question answered with no. */
  public static ObjectNode noFlags() {
    ObjectNode flags = JsonNodeFactory.instance.objectNode();
    QUESTIONS.forEach(question -> flags.put(question, "no"));
    return flags;
  }

  /** A look at the knee by itself. */
  public static ObjectNode check(String recordId, String at) {
    ObjectNode json = entry(recordId, at);
    json.withObject("/entry").putObject("kneeCheck").set("redFlags", noFlags());
    return json;
  }

  /** A clinician's clearance of some entries. */
  public static ObjectNode clearance(String recordId, String at, String... clears) {
    ObjectNode json = entry(recordId, at);
    ObjectNode clearance = json.withObject("/entry").putObject("clearance");
    clearance.put("clinician", "C-07");
    var names = clearance.putArray("clears");
    for (String name : clears) {
      names.add(name);
    }
    return json;
  }

  /** Days of rest, stated on the last of them. */
  public static ObjectNode rest(LocalDate... days) {
    ObjectNode json = entry("rest-" + days[0], days[days.length - 1] + "T21:00:00+01:00");
    var array = json.withObject("/entry").putArray("restDays");
    for (LocalDate day : days) {
      array.add(day.toString());
    }
    return json;
  }

  /** A number with its unit. */
  public static ObjectNode quantity(double value, String unit) {
    return JsonNodeFactory.instance.objectNode().put("value", value).put("unit", unit);
  }
}
