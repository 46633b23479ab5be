package evenside.api.page.decision;

import static evenside.api.page.Texts.text;

import evenside.api.drawing.Drawing;
import evenside.api.drawing.Mark;
import evenside.api.drawing.Sides;
import evenside.api.drawing.Strip;
import evenside.api.page.Figures;
import evenside.api.page.Texts;
import java.util.List;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** Draws findings. Each drawing says in words what it shows; the words also stand beside it. */
final class FindingDrawings {
  /** Grades of the stroke test in their order, as in the published schema. */
  private static final List<String> EFFUSION = List.of("zero", "trace", "1+", "2+", "3+");

  private FindingDrawings() {}

  /** Both sides, if exactly one number of each was used. */
  static Optional<Drawing> sides(JsonNode finding) {
    Optional<JsonNode> operated = only(finding.path("inputs"), "operated");
    Optional<JsonNode> other = only(finding.path("inputs"), "other");
    if (operated.isEmpty() || other.isEmpty()) {
      return Optional.empty();
    }
    Sides.Side left = side(operated.get());
    Sides.Side right = side(other.get());
    if (left.value() < 0 || right.value() < 0) {
      return Optional.empty();
    }
    String words =
        text("drawing.sides.words", left.label(), left.text(), right.label(), right.text());
    return Optional.of(
        Sides.draw(
            left,
            right,
            needed(finding.path("toMeet").path("operated")),
            text("drawing.sides", finding.path("title").asString()),
            words));
  }

  private static Optional<JsonNode> only(JsonNode inputs, String role) {
    Optional<JsonNode> found = Optional.empty();
    for (JsonNode input : inputs) {
      if (input.path("role").asString("").equals(role)) {
        if (found.isPresent() || !input.path("value").isObject()) {
          return Optional.empty();
        }
        found = Optional.of(input);
      }
    }
    return found;
  }

  private static Sides.Side side(JsonNode input) {
    return new Sides.Side(
        Words.side(input),
        input.path("value").path("value").asDouble(),
        Figures.value(input.path("value")));
  }

  private static Optional<Sides.Needed> needed(JsonNode operated) {
    return operated.isMissingNode()
        ? Optional.empty()
        : Optional.of(
            new Sides.Needed(
                operated.path("value").asDouble(),
                text("drawing.needed", Words.shortBound(operated))));
  }

  /** A result against its bound: with all words, and small. */
  record Strips(Drawing full, Drawing small) {}

  /** The result against its bound, if both are numbers of one unit, or grades of effusion. */
  static Optional<Strips> strips(JsonNode finding) {
    JsonNode value = finding.path("value");
    JsonNode bound = finding.path("bound");
    if (value.isString() && bound.path("comparator").asString("").equals("<=")) {
      return grades(finding);
    }
    boolean same = value.path("unit").asString("-").equals(bound.path("unit").asString(""));
    if (!value.isObject() || !bound.path("value").isNumber() || !same) {
      return Optional.empty();
    }
    Strip.Reading reading = reading(finding, value, bound);
    return Optional.of(
        new Strips(
            Strip.draw(reading, Figures::number, title(finding), words(finding)),
            Strip.small(reading)));
  }

  private static Strip.Reading reading(JsonNode finding, JsonNode value, JsonNode bound) {
    JsonNode error = finding.path("measurementError");
    return new Strip.Reading(
        Mark.of(finding.path("outcome").asString()),
        value.path("value").asDouble(),
        Words.value(finding),
        bound.path("value").asDouble(),
        Words.shortBound(bound),
        bound.path("comparator").asString("").startsWith(">"),
        error.isMissingNode()
            ? Optional.empty()
            : Optional.of(
                new Strip.Span(error.path("low").asDouble(), error.path("high").asDouble())));
  }

  private static Optional<Strips> grades(JsonNode finding) {
    int value = EFFUSION.indexOf(finding.path("value").asString());
    int bound = EFFUSION.indexOf(finding.path("bound").path("value").asString(""));
    if (value < 0 || bound < 0) {
      return Optional.empty();
    }
    List<String> names = EFFUSION.stream().map(grade -> Texts.known("grade", grade)).toList();
    Mark mark = Mark.of(finding.path("outcome").asString());
    return Optional.of(
        new Strips(
            Strip.steps(names, value, bound, mark, title(finding), words(finding)),
            Strip.smallSteps(names.size(), value, bound, mark)));
  }

  private static String title(JsonNode finding) {
    return text("drawing.strip", finding.path("title").asString());
  }

  private static String words(JsonNode finding) {
    JsonNode error = finding.path("measurementError");
    String plain =
        text(
            "drawing.strip.words",
            Words.value(finding),
            Words.bound(finding.path("bound")),
            Texts.known("outcome", finding.path("outcome").asString()));
    return error.isMissingNode()
        ? plain
        : plain
            + " "
            + text(
                "drawing.strip.error",
                Figures.number(error.path("low").asDouble()),
                Figures.number(error.path("high").asDouble()));
  }
}
