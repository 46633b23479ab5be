package evenside.api.page.progress;

import static evenside.api.page.Texts.text;

import evenside.api.drawing.Course;
import evenside.api.drawing.Drawing;
import evenside.api.page.Figures;
import evenside.api.page.Tests;
import evenside.api.page.Texts;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** Makes a series to be read out of a computed one. */
final class SeriesReader {
  private SeriesReader() {}

  static Series read(JsonNode series, Bounds bounds) {
    List<String> aspects = new ArrayList<>();
    series.path("trends").forEach(trend -> aspects.add(trend.path("aspect").asString()));
    return new Series(
        series.path("title").asString(),
        Texts.sentence(Tests.way(series.path("protocol"), series.path("aggregation").asString(""))),
        text("progress.better." + series.path("better").asString("neither")),
        drawings(series, aspects, bounds),
        changes(series.path("trends")),
        Texts.sentence(series.path("otherLeg").path("text").asString("")),
        aspects.stream().map(SeriesReader::aspect).toList(),
        rows(series, aspects));
  }

  private static List<Drawing> drawings(JsonNode series, List<String> aspects, Bounds bounds) {
    List<Drawing> drawings = new ArrayList<>();
    for (JsonNode trend : series.path("trends")) {
      String aspect = trend.path("aspect").asString();
      boolean both = aspect.equals("operated") && aspects.contains("other");
      if (List.of("symmetry", "value", "operated").contains(aspect)) {
        drawing(series, trend, both, bounds).ifPresent(drawings::add);
      }
    }
    return drawings;
  }

  private static Optional<Drawing> drawing(
      JsonNode series, JsonNode trend, boolean both, Bounds bounds) {
    String aspect = trend.path("aspect").asString();
    List<Course.Point> points = points(series, aspect);
    // One point is no course, and grades have no distances.
    if (points.size() < 2 || trend.path("unit").asString("").equals("{grade}")) {
      return Optional.empty();
    }
    List<Course.Point> others = both ? points(series, "other") : List.of();
    String unit = Figures.unit(trend.path("unit").asString(""));
    String name = aspect(aspect) + (unit.isEmpty() ? "" : "," + unit);
    Course.Story story =
        new Course.Story(
            new Course.Line(name, points),
            others.isEmpty()
                ? Optional.empty()
                : Optional.of(new Course.Line(aspect("other"), others)),
            error(trend.path("measurementError")),
            bounds.on(series, aspect),
            fit(trend, points),
            bounds.reached(series, aspect));
    return Optional.of(
        Course.draw(
            story,
            Figures::number,
            text("drawing.course.axis"),
            text("drawing.course", series.path("title").asString(), aspect(aspect)),
            text(
                "drawing.course.words",
                points.size(),
                Figures.number(points.get(0).value()) + unit,
                Figures.number(points.get(points.size() - 1).value()) + unit)));
  }

  private static List<Course.Point> points(JsonNode series, String aspect) {
    List<Course.Point> points = new ArrayList<>();
    for (JsonNode test : series.path("tests")) {
      JsonNode number = test.path("numbers").path(aspect);
      if (number.isNumber()) {
        points.add(new Course.Point(test.path("weeks").asDouble(), number.asDouble()));
      }
    }
    return points;
  }

  /** Half of the interval of one reading; none for an error in percent of the value. */
  private static double error(JsonNode error) {
    return error.isMissingNode() || error.path("relative").asBoolean(false)
        ? 0
        : error.path("z").asDouble() * error.path("sem").asDouble();
  }

  private static Optional<Course.Fit> fit(JsonNode trend, List<Course.Point> points) {
    JsonNode at = trend.path("line").path("atNewest");
    if (at.isMissingNode()) {
      return Optional.empty();
    }
    double first = points.get(0).week();
    double newest = trend.path("newest").path("weeks").asDouble();
    double fitted = at.path("fit").asDouble();
    double start = fitted - trend.path("line").path("perWeek").asDouble() * (newest - first);
    return Optional.of(
        new Course.Fit(
            new Course.Point(first, start),
            new Course.Point(newest, fitted),
            at.path("prediction").path("low").asDouble(),
            at.path("prediction").path("high").asDouble()));
  }

  private static List<String> changes(JsonNode trends) {
    List<String> changes = new ArrayList<>();
    for (JsonNode trend : trends) {
      String aspect = trend.path("aspect").asString();
      JsonNode step = trend.path("sinceLast");
      if (List.of("symmetry", "value", "operated").contains(aspect) && !step.isMissingNode()) {
        String unit = trend.path("unit").asString("");
        changes.add(
            text(
                "progress.change",
                aspect(aspect),
                Figures.quantity(step.path("from").path("value").asDouble(), unit),
                Figures.quantity(step.path("to").path("value").asDouble(), unit),
                Texts.known("progress.verdict", step.path("verdict").asString(""))));
      }
    }
    return changes;
  }

  private static List<List<String>> rows(JsonNode series, List<String> aspects) {
    List<List<String>> rows = new ArrayList<>();
    for (JsonNode test : series.path("tests")) {
      List<String> row = new ArrayList<>();
      row.add(Figures.shortDay(test.path("performedOn").asString()));
      row.add(Figures.number(test.path("weeks").asDouble()));
      for (String aspect : aspects) {
        JsonNode number = test.path("numbers").path(aspect);
        row.add(
            number.isNumber()
                ? Figures.quantity(number.asDouble(), unit(series, aspect))
                : Figures.value(number));
      }
      rows.add(row);
    }
    return rows;
  }

  private static String unit(JsonNode series, String aspect) {
    for (JsonNode trend : series.path("trends")) {
      if (trend.path("aspect").asString().equals(aspect)) {
        return trend.path("unit").asString("");
      }
    }
    return "";
  }

  private static String aspect(String code) {
    return Texts.known("aspect", code).replace('-', ' ');
  }
}
