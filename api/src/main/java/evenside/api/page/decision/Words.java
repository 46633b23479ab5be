package evenside.api.page.decision;

import static evenside.api.page.Texts.text;

import evenside.api.page.Figures;
import evenside.api.page.Tests;
import evenside.api.page.Texts;
import java.util.StringJoiner;
import tools.jackson.databind.JsonNode;

/** Parts of findings as sentences. */
final class Words {
  private Words() {}

  /** What was found; for a number, never rounded onto its bound. */
  static String value(JsonNode finding) {
    JsonNode value = finding.path("value");
    if (value.isMissingNode()) {
      return text("decision.no-result");
    }
    JsonNode bound = finding.path("bound").path("value");
    if (value.isObject() && bound.isNumber()) {
      return Figures.beside(value.path("value").asDouble(), bound.asDouble())
          + Figures.unit(value.path("unit").asString(""));
    }
    return Figures.value(value);
  }

  /** What was asked. */
  static String bound(JsonNode bound) {
    if (bound.isMissingNode()) {
      return "";
    }
    String value =
        bound.has("unit")
            ? Figures.quantity(bound.path("value").asDouble(), bound.path("unit").asString())
            : Figures.value(bound.path("value"));
    String comparator = bound.path("comparator").asString("");
    return comparator.isEmpty() ? value : text("comparator." + comparator, value);
  }

  /** The same with a sign, for drawings. */
  static String shortBound(JsonNode bound) {
    String sign = Texts.known("sign", bound.path("comparator").asString(""));
    return sign
        + " "
        + Figures.quantity(bound.path("value").asDouble(), bound.path("unit").asString(""));
  }

  static String margin(JsonNode margin) {
    if (margin.isMissingNode()) {
      return "";
    }
    double value = margin.path("value").asDouble();
    String ucum = margin.path("unit").asString("");
    if (value == 0) {
      return text("decision.margin.at");
    }
    // A difference of percentages is no percentage.
    String unit = ucum.equals("%") ? "\u00a0" + text("decision.points") : Figures.unit(ucum);
    String amount = Figures.number(Math.abs(value)) + unit;
    return text(value > 0 ? "decision.margin.beyond" : "decision.margin.short", amount);
  }

  /** Why it is not met or open; empty where the difference says it already. */
  static String reason(JsonNode finding) {
    JsonNode reason = finding.path("reason");
    boolean said =
        reason.path("code").asString("").equals("short-of-bound")
            && finding.path("margin").path("value").asDouble(0) != 0;
    return said ? "" : Texts.sentence(Figures.withDays(reason.path("text").asString("")));
  }

  /** What would meet it. */
  static String toMeet(JsonNode finding) {
    JsonNode toMeet = finding.path("toMeet");
    if (toMeet.has("operated")) {
      String now = "";
      for (JsonNode input : finding.path("inputs")) {
        if (input.path("role").asString("").equals("operated")) {
          now = Figures.value(input.path("value"));
        }
      }
      String needed = bound(toMeet.path("operated"));
      return now.isEmpty()
          ? text("decision.operated", needed)
          : text("decision.operated.now", needed, now);
    }
    if (toMeet.has("value")) {
      return text("decision.result", bound(toMeet.path("value")), value(finding));
    }
    if (toMeet.has("date")) {
      return text("decision.from", Figures.day(toMeet.path("date").asString()));
    }
    return Texts.sentence(toMeet.path("text").asString(""));
  }

  static String side(JsonNode input) {
    if (!input.has("role")) {
      return "";
    }
    return text(
        "decision.side."
            + (input.path("role").asString().equals("operated") ? "operated" : "other"),
        Texts.known("side", input.path("side").asString("")));
  }

  /** What was measured, and how. */
  static String test(String measure, JsonNode input) {
    String way = Tests.way(input.path("protocol"), input.path("aggregation").asString(""));
    return way.isEmpty() ? measure : measure + ", " + way;
  }

  /** A published figure, in words. */
  static String published(JsonNode one) {
    String unit = one.path("unit").asString("");
    StringJoiner words = new StringJoiner(", ");
    if (one.has("mean")) {
      String mean = text("decision.mean", Figures.quantity(one.path("mean").asDouble(), unit));
      words.add(
          one.has("sd")
              ? mean + " " + text("decision.sd", Figures.number(one.path("sd").asDouble()))
              : mean);
    }
    if (one.has("value")) {
      words.add(Figures.quantity(one.path("value").asDouble(), unit));
    }
    if (one.has("low") && one.has("high")) {
      words.add(
          text(
              "decision.low-high",
              Figures.number(one.path("low").asDouble()),
              Figures.quantity(one.path("high").asDouble(), unit)));
    }
    return Texts.known("statistic", one.path("statistic").asString("")).replace('-', ' ')
        + " "
        + words;
  }
}
