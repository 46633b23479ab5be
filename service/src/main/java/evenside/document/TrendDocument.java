package evenside.document;

import evenside.criteria.Threshold;
import evenside.measure.Aggregation;
import evenside.measure.Aspect;
import evenside.measure.MeasureCatalogue;
import evenside.measure.MeasurementError;
import evenside.quantity.Decimals;
import evenside.quantity.Quantity;
import evenside.trend.Change;
import evenside.trend.Interval;
import evenside.trend.Line;
import evenside.trend.OtherLeg;
import evenside.trend.Reading;
import evenside.trend.Series;
import evenside.trend.Trend;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** One series with its trends as JSON. */
final class TrendDocument {
  static final double LEVEL = 0.95;

  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  private final MeasureCatalogue catalogue;

  TrendDocument(MeasureCatalogue catalogue) {
    this.catalogue = catalogue;
  }

  ObjectNode series(Series series) {
    ObjectNode json = JSON.objectNode();
    json.put("measure", series.measure().code());
    json.put("title", series.measure().title());
    json.put("better", series.measure().better().name().toLowerCase(Locale.ROOT));
    json.set("protocol", FindingDocument.protocol(series.protocol()));
    json.put("aggregation", series.aggregation());
    ArrayNode tests = json.putArray("tests");
    series.tests().forEach(test -> tests.add(test(test)));
    json.put("earlierNotShown", series.earlierNotShown());
    ArrayNode trends = json.putArray("trends");
    for (Aspect aspect : Aspect.values()) {
      String unit = series.graded() ? Series.RANK : Threshold.unitOf(series.measure(), aspect);
      Trend.of(series, aspect, unit, error(series, aspect))
          .ifPresent(trend -> trends.add(trend(trend)));
    }
    OtherLeg.of(series, error(series, Aspect.OTHER))
        .ifPresent(leg -> json.set("otherLeg", otherLeg(leg, series.measure().unit())));
    return json;
  }

  /** Studies state the error of a leg; it is taken for either. */
  private @Nullable MeasurementError error(Series series, Aspect aspect) {
    Aspect studied = aspect == Aspect.OTHER ? Aspect.OPERATED : aspect;
    return catalogue
        .errorOf(
            series.measure().code(),
            studied,
            series.protocol(),
            Aggregation.of(series.aggregation()))
        .orElse(null);
  }

  private static ObjectNode test(Series.Test test) {
    ObjectNode json = JSON.objectNode();
    json.put("batteryId", test.batteryId());
    json.put("performedOn", test.performedOn().toString());
    json.put("weeks", Decimals.exact(test.weeks()));
    ObjectNode numbers = json.putObject("numbers");
    test.numbers().forEach((aspect, value) -> numbers.put(aspect.code(), value));
    return json;
  }

  private static ObjectNode trend(Trend trend) {
    ObjectNode json = JSON.objectNode();
    json.put("aspect", trend.aspect().code()).put("unit", trend.unit());
    json.put("readings", trend.readings().size());
    json.set("newest", reading(trend.readings().get(trend.readings().size() - 1)));
    if (trend.sinceLast() != null) {
      json.set("sinceLast", step(trend.sinceLast()));
    }
    if (trend.sinceFirst() != null) {
      json.set("sinceFirst", step(trend.sinceFirst()));
    }
    if (trend.error() != null) {
      json.set("measurementError", error(trend.error()));
    }
    if (trend.line() != null) {
      json.set("line", line(trend.line()));
    } else {
      json.put("noLine", noLine(trend));
    }
    if (trend.slope() != null) {
      json.putObject("knownErrorSlope")
          .put("perWeek", Decimals.exact(trend.slope().perWeek()))
          .put("standardError", Decimals.exact(trend.slope().standardError()))
          .put("z", trend.slope().z())
          .put("verdict", verdict(trend.slope().reliable()))
          .set("interval", interval(trend.slope().interval()));
    }
    return json;
  }

  private static String noLine(Trend trend) {
    if (trend.unit().equals(Series.RANK)) {
      return "grades are compared by order; no line is fitted to them";
    }
    return trend.readings().size() < 3
        ? trend.readings().size() + " of the 3 tests that a line needs"
        : "all tests were done on the same day";
  }

  private static ObjectNode step(Trend.Step step) {
    ObjectNode json = JSON.objectNode();
    json.set("from", reading(step.from()));
    json.set("to", reading(step.to()));
    json.put("difference", Decimals.exact(step.to().value() - step.from().value()));
    json.put("verdict", verdict(step.change()));
    Change change = step.change();
    if (change != null) {
      json.put("smallestDetectable", change.smallest()).put("index", change.index());
    }
    return json;
  }

  private static String verdict(@Nullable Change change) {
    return change == null ? "no-published-error" : verdict(change.reliable());
  }

  private static String verdict(boolean reliable) {
    return reliable ? "reliable" : "within-error";
  }

  private static ObjectNode reading(Reading reading) {
    return JSON.objectNode()
        .put("weeks", Decimals.exact(reading.weeks()))
        .put("value", reading.value());
  }

  static ObjectNode error(MeasurementError error) {
    ObjectNode json =
        JSON.objectNode()
            .put("sem", error.sem())
            .put("relative", error.relative())
            .put("z", error.z())
            .put("population", error.population())
            .put("source", error.source())
            .put("verified", error.verified());
    FindingDocument.studiedAggregation(json, error);
    return json;
  }

  private static ObjectNode line(Line line) {
    ObjectNode json = JSON.objectNode();
    json.put("perWeek", Decimals.exact(line.slope()));
    json.set("perWeekInterval", interval(line.slope(LEVEL)));
    json.put("scatter", Decimals.exact(line.residual()));
    json.put("explained", Decimals.exact(line.explained()));
    json.put("level", LEVEL);
    ObjectNode newest = json.putObject("atNewest");
    newest.put("fit", Decimals.exact(line.at(line.last())));
    newest.set("confidence", interval(line.confidence(line.last(), LEVEL)));
    newest.set("prediction", interval(line.prediction(line.last(), LEVEL)));
    return json;
  }

  private static ObjectNode interval(Interval interval) {
    return JSON.objectNode()
        .put("low", Decimals.exact(interval.low()))
        .put("high", Decimals.exact(interval.high()));
  }

  private static ObjectNode otherLeg(OtherLeg leg, String unit) {
    ObjectNode json = JSON.objectNode();
    json.putObject("reference")
        .put("performedOn", leg.reference().performedOn().toString())
        .put("beforeSurgery", leg.reference().weeks() < 0)
        .put("value", leg.then());
    json.put("now", leg.now());
    json.put("difference", Decimals.exact(leg.now() - leg.then()));
    json.put("lost", leg.lost());
    json.put("verdict", verdict(leg.change()));
    leg.symmetry().ifPresent(value -> json.set("symmetry", percent(value)));
    leg.againstReference().ifPresent(value -> json.set("againstReference", percent(value)));
    json.put("text", otherLegText(leg, unit));
    return json;
  }

  private static String otherLegText(OtherLeg leg, String unit) {
    if (!leg.lost()) {
      return "the other leg is no worse than it was";
    }
    String change =
        "the other leg went from "
            + new Quantity(leg.then(), unit)
            + " to "
            + new Quantity(leg.now(), unit);
    return leg.change() != null && !leg.change().reliable()
        ? change + ", within measurement error; if it is a loss, it makes symmetry look better"
        : change + ": this makes symmetry look better than it is";
  }

  private static ObjectNode percent(double value) {
    return FindingDocument.quantity(new Quantity(value, "%"));
  }
}
