package evenside.intake;

import evenside.signs.EffusionGrade;
import evenside.training.Answer;
import evenside.training.Contacts;
import evenside.training.CoreHold;
import evenside.training.Drill;
import evenside.training.Entry;
import evenside.training.Limb;
import evenside.training.PlannedLevel;
import evenside.training.RedFlags;
import evenside.training.Response;
import evenside.training.Response.Effusion;
import evenside.training.Response.Pain;
import evenside.training.Response.Soreness;
import evenside.training.Response.WarmUp;
import evenside.training.Running;
import evenside.training.Session;
import evenside.training.Strength;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** Reads an entry of the training record that its schema and rules have already accepted. */
public final class SessionReader {
  private SessionReader() {}

  /**
   * Reads one entry.
   *
   * @param id identifier of the record, or its place in a request
   */
  public static Session read(String id, JsonNode json) {
    return new Session(
        id,
        Optional.ofNullable(CatalogueReader.text(json, "recordId")),
        OffsetDateTime.parse(json.path("performedAt").asString()),
        entry(json.path("entry")));
  }

  private static Entry entry(JsonNode json) {
    if (json.has("training")) {
      return training(json.path("training"));
    }
    if (json.has("kneeCheck")) {
      JsonNode check = json.path("kneeCheck");
      return new Entry.KneeCheck(
          Optional.ofNullable(CatalogueReader.text(check, "completes")),
          response(check.path("response")),
          redFlags(check.path("redFlags")));
    }
    if (json.has("restDays")) {
      Set<LocalDate> days = new HashSet<>();
      json.path("restDays").forEach(day -> days.add(LocalDate.parse(day.asString())));
      return new Entry.RestDays(days);
    }
    JsonNode clearance = json.path("clearance");
    return new Entry.Clearance(
        clearance.path("clinician").asString(), list(clearance.path("clears"), JsonNode::asString));
  }

  private static Entry.Training training(JsonNode json) {
    JsonNode work = json.path("work");
    return new Entry.Training(
        list(work.path("running"), SessionReader::running),
        list(work.path("strength"), SessionReader::strength),
        list(work.path("core"), SessionReader::core),
        list(work.path("drills"), SessionReader::drill),
        quantity(json.path("duration")),
        number(json.path("effort")),
        response(json.path("response")),
        redFlags(json.path("redFlags")),
        Set.copyOf(list(json.path("programmeCompleted"), JsonNode::asString)));
  }

  private static Running running(JsonNode json) {
    return new Running(
        progression(json),
        json.path("surface").asString(),
        CatalogueReader.text(json, "path"),
        flag(json.path("braceWorn")),
        json.has("planned") ? dose(json.path("planned")) : null,
        dose(json.path("completed")));
  }

  private static Running.Dose dose(JsonNode json) {
    return new Running.Dose(
        quantity(json.path("walkDistance")),
        quantity(json.path("runDistance")),
        quantity(json.path("walkTime")),
        quantity(json.path("runTime")));
  }

  private static Strength strength(JsonNode json) {
    JsonNode done = json.path("completed");
    return new Strength(
        json.path("exercise").asString(),
        Limb.of(json.path("side").asString()),
        progression(json),
        json.has("planned") ? plan(json.path("planned")) : null,
        new Strength.Done(
            list(done.path("repetitions"), JsonNode::asInt),
            quantity(done.path("load")),
            done.path("times").asInt(1),
            flag(done.path("toFailure"))));
  }

  private static Strength.Plan plan(JsonNode json) {
    JsonNode most = json.path("repetitionsMost");
    return new Strength.Plan(
        json.path("sets").asInt(),
        json.path("repetitions").asInt(),
        most.isNumber() ? most.asInt() : null,
        quantity(json.path("load")),
        json.path("timesPerDay").asInt(1),
        json.path("days").asInt(1));
  }

  private static CoreHold core(JsonNode json) {
    JsonNode plan = json.path("planned");
    JsonNode done = json.path("completed");
    return new CoreHold(
        json.path("exercise").asString(),
        Limb.of(json.path("side").asString()),
        plan.isObject()
            ? new CoreHold.Plan(
                plan.path("holds").asInt(),
                plan.path("hold").path("value").asDouble(),
                plan.path("timesPerDay").asInt(1),
                plan.path("days").asInt(1))
            : null,
        list(done.path("holds"), JsonNode::asDouble),
        done.path("times").asInt(1),
        flag(done.path("formKept")));
  }

  private static Drill drill(JsonNode json) {
    return new Drill(
        json.path("drill").asString(),
        progression(json),
        json.has("planned") ? contacts(json.path("planned")) : null,
        contacts(json.path("completed")));
  }

  private static Contacts contacts(JsonNode json) {
    return new Contacts(
        json.path("both").asInt(0), json.path("left").asInt(0), json.path("right").asInt(0));
  }

  private static @Nullable PlannedLevel progression(JsonNode item) {
    JsonNode json = item.path("progression");
    return json.isObject()
        ? new PlannedLevel(
            json.path("id").asString(),
            CatalogueReader.text(json, "version"),
            json.path("level").asInt())
        : null;
  }

  private static Response response(JsonNode json) {
    JsonNode pain = json.path("pain");
    JsonNode soreness = json.path("soreness");
    String warmUp = soreness.path("warmUp").asString("");
    return new Response(
        new Pain(
            whole(pain.path("before")),
            whole(pain.path("worst")),
            whole(pain.path("afterOneHour")),
            whole(pain.path("nextMorning")),
            whole(pain.path("atRest")),
            whole(pain.path("muscleWorst"))),
        new Soreness(
            Set.copyOf(list(soreness.path("sites"), JsonNode::asString)),
            warmUp.isEmpty() ? null : WarmUp.valueOf(warmUp.toUpperCase(Locale.ROOT)),
            flag(soreness.path("afterOneHour")),
            flag(soreness.path("nextDay"))),
        effusion(json.path("effusion")),
        flag(json.path("swollenNextMorning")),
        quantity(json.path("extensionLoss")));
  }

  /** Grades by another method are kept with the record and held against no rule. */
  private static Effusion effusion(JsonNode json) {
    return json.path("method").asString("").equals("stroke-test")
        ? new Effusion(
            grade(json, "usual"),
            grade(json, "before"),
            grade(json, "after"),
            grade(json, "nextMorning"))
        : Effusion.NONE;
  }

  private static @Nullable EffusionGrade grade(JsonNode json, String member) {
    String code = json.path(member).asString("");
    return code.isEmpty() ? null : EffusionGrade.of(code);
  }

  private static RedFlags redFlags(JsonNode json) {
    Map<String, Answer> answers = new HashMap<>();
    for (Map.Entry<String, JsonNode> member : json.properties()) {
      if (member.getValue().isString()) {
        Answer answer = Answer.valueOf(member.getValue().asString().toUpperCase(Locale.ROOT));
        answers.put(code(member.getKey()), answer);
      }
    }
    return new RedFlags(answers, quantity(json.path("bodyTemperature")));
  }

  /** The code of a question is its member name in kebab-case. */
  static String code(String member) {
    StringBuilder code = new StringBuilder();
    for (int i = 0; i < member.length(); i++) {
      char c = member.charAt(i);
      code.append(Character.isUpperCase(c) ? "-" : "").append(Character.toLowerCase(c));
    }
    return code.toString();
  }

  private static <T> List<T> list(JsonNode array, Function<JsonNode, T> read) {
    List<T> list = new ArrayList<>();
    array.forEach(item -> list.add(read.apply(item)));
    return list;
  }

  private static @Nullable Double quantity(JsonNode json) {
    return number(json.path("value"));
  }

  private static @Nullable Double number(JsonNode json) {
    return json.isNumber() ? json.asDouble() : null;
  }

  private static @Nullable Integer whole(JsonNode json) {
    return json.isNumber() ? json.asInt() : null;
  }

  private static @Nullable Boolean flag(JsonNode json) {
    return json.isBoolean() ? json.asBoolean() : null;
  }
}
