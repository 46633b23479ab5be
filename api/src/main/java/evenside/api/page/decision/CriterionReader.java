package evenside.api.page.decision;

import static evenside.api.page.Texts.text;

import evenside.api.drawing.Mark;
import evenside.api.page.Figures;
import evenside.api.page.Terms;
import evenside.api.page.Texts;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.StringJoiner;
import tools.jackson.databind.JsonNode;

/** Makes criteria to be read out of findings. */
final class CriterionReader {
  private final Terms terms;

  CriterionReader(Terms terms) {
    this.terms = terms;
  }

  /** The criteria of a tree of findings, in its order; groups are left to {@link #groups}. */
  List<Criterion> leaves(JsonNode finding) {
    List<Criterion> leaves = new ArrayList<>();
    collect(finding, leaves);
    return leaves;
  }

  private void collect(JsonNode finding, List<Criterion> into) {
    if (finding.has("of")) {
      finding.path("of").forEach(one -> collect(one, into));
    } else {
      into.add(read(finding));
    }
  }

  /** The groups that are not simply everything, in words. */
  List<String> groups(JsonNode finding) {
    List<String> groups = new ArrayList<>();
    for (JsonNode one : finding.path("of")) {
      if (one.has("of")) {
        groups.add(
            text(
                "decision.group",
                one.path("title").asString(),
                Texts.known("outcome", one.path("outcome").asString())));
        groups.addAll(groups(one));
      }
    }
    return groups;
  }

  Criterion read(JsonNode finding) {
    String outcome = finding.path("outcome").asString();
    Optional<FindingDrawings.Strips> strips = FindingDrawings.strips(finding);
    return new Criterion(
        finding.path("id").asString(),
        finding.path("title").asString(),
        Texts.known("outcome", outcome),
        Mark.of(outcome),
        Words.value(finding),
        Words.bound(finding.path("bound")),
        Words.margin(finding.path("margin")),
        Words.reason(finding),
        Words.toMeet(finding),
        error(finding),
        finding.path("measurementError").path("withinErrorOfBound").asBoolean(false),
        inputs(finding.path("inputs")),
        sources(finding),
        context(finding.path("context")),
        FindingDrawings.sides(finding),
        strips.map(FindingDrawings.Strips::full),
        strips.map(FindingDrawings.Strips::small));
  }

  private static String error(JsonNode finding) {
    JsonNode error = finding.path("measurementError");
    if (error.isMissingNode()) {
      return "";
    }
    String unit = finding.path("value").path("unit").asString("");
    StringJoiner words = new StringJoiner(" ");
    words.add(
        text(
            "decision.error",
            Figures.number(error.path("low").asDouble()),
            Figures.quantity(error.path("high").asDouble(), unit)));
    words.add(
        text(
            "decision.error.source",
            error.path("population").asString(),
            error.path("source").asString()));
    if (!error.path("verified").asBoolean(true)) {
      words.add(text("decision.unverified"));
    }
    return words.toString();
  }

  private List<Criterion.Used> inputs(JsonNode inputs) {
    List<Criterion.Used> used = new ArrayList<>();
    for (JsonNode input : inputs) {
      used.add(
          new Criterion.Used(
              Words.side(input),
              Words.test(terms.measure(input.path("measure").asString()), input),
              Figures.value(input.path("value")),
              Figures.shortDay(input.path("performedOn").asString()),
              Texts.counted("decision.days", input.path("ageDays").asInt()),
              input.path("batteryId").asString() + " " + input.path("pointer").asString()));
    }
    return used;
  }

  private static List<String> sources(JsonNode finding) {
    List<String> lines = new ArrayList<>();
    JsonNode citation = finding.path("citation");
    StringJoiner source = new StringJoiner(", ");
    source.add(citation.path("text").asString(""));
    if (citation.has("doi")) {
      source.add("doi " + citation.path("doi").asString());
    }
    if (citation.has("place")) {
      source.add(text("decision.read-in", citation.path("place").asString()));
    }
    if (!source.toString().isEmpty()) {
      lines.add(source.toString());
    }
    if (citation.has("printedAs")) {
      lines.add(text("decision.printed-as", citation.path("printedAs").asString()));
    }
    if (!finding.path("verified").asBoolean(true)) {
      lines.add(text("decision.bound-unverified"));
    }
    if (finding.has("note")) {
      lines.add(finding.path("note").asString());
    }
    return lines;
  }

  private static List<String> context(JsonNode context) {
    List<String> lines = new ArrayList<>();
    for (JsonNode one : context) {
      lines.add(
          text(
              "decision.context.line",
              one.path("population").asString(),
              Words.published(one),
              one.path("source").asString()));
    }
    return lines;
  }
}
