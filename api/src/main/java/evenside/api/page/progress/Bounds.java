package evenside.api.page.progress;

import evenside.api.drawing.Course;
import evenside.api.page.Figures;
import evenside.api.page.Texts;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;

/** The bounds that the criteria sets of the outlooks ask for, and when lines may reach them. */
final class Bounds {
  private record Asked(JsonNode criterion, JsonNode outlook) {}

  private final List<Asked> asked;
  private final LocalDate surgery;

  private Bounds(List<Asked> asked, LocalDate surgery) {
    this.asked = asked;
    this.surgery = surgery;
  }

  static Bounds of(List<JsonNode> sets, JsonNode outlooks, LocalDate surgery) {
    List<Asked> asked = new ArrayList<>();
    for (JsonNode set : sets) {
      for (JsonNode leaf : leaves(set.path("criteria"))) {
        asked.add(new Asked(leaf, outlook(outlooks, set, leaf.path("id").asString())));
      }
    }
    return new Bounds(asked, surgery);
  }

  /** The bounds on one number of a series, each once. */
  List<Course.Bound> on(JsonNode series, String aspect) {
    return matching(series, aspect).stream()
        .map(
            one ->
                new Course.Bound(
                    one.criterion().path("bound").asDouble(),
                    Texts.known("sign", one.criterion().path("comparator").asString(""))
                        + " "
                        + Figures.quantity(
                            one.criterion().path("bound").asDouble(),
                            one.criterion().path("unit").asString(""))))
        .distinct()
        .toList();
  }

  /** Where the line of that number would reach them. */
  List<Course.Projection> reached(JsonNode series, String aspect) {
    List<Course.Projection> reached = new ArrayList<>();
    for (Asked one : matching(series, aspect)) {
      JsonNode line = one.outlook().path("line");
      if (one.outlook().has("date") && line.has("earliest")) {
        String latest = line.path("latest").asString(one.outlook().path("notBeyond").asString());
        reached.add(
            new Course.Projection(
                new Course.Point(
                    week(one.outlook().path("date").asString()),
                    one.criterion().path("bound").asDouble()),
                week(line.path("earliest").asString()),
                week(latest)));
      }
    }
    return reached.stream().distinct().toList();
  }

  private List<Asked> matching(JsonNode series, String aspect) {
    return asked.stream().filter(one -> fits(one.criterion(), series, aspect)).toList();
  }

  private static boolean fits(JsonNode criterion, JsonNode series, String aspect) {
    JsonNode modes = criterion.path("protocol").path("mode");
    String mode = series.path("protocol").path("mode").asString("");
    return criterion.path("measure").asString("").equals(series.path("measure").asString())
        && criterion.path("aspect").asString("").equals(aspect)
        && criterion.path("bound").isNumber()
        && (modes.isMissingNode()
            || modes.valueStream().anyMatch(one -> one.asString("").equals(mode)));
  }

  private double week(String date) {
    return ChronoUnit.DAYS.between(surgery, LocalDate.parse(date)) / 7.0;
  }

  private static JsonNode outlook(JsonNode outlooks, JsonNode set, String criterion) {
    for (JsonNode outlook : outlooks) {
      if (outlook.path("criteriaSet").path("id").equals(set.path("id"))
          && outlook.path("criteriaSet").path("version").equals(set.path("version"))) {
        for (JsonNode one : outlook.path("criteria")) {
          if (one.path("criterion").asString().equals(criterion)) {
            return one;
          }
        }
      }
    }
    return outlooks.path(criterion);
  }

  private static List<JsonNode> leaves(JsonNode criterion) {
    if (!criterion.has("of")) {
      return List.of(criterion);
    }
    return criterion.path("of").valueStream().flatMap(one -> leaves(one).stream()).toList();
  }
}
