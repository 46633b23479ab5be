package evenside.document;

import evenside.criteria.NumberBound;
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
import evenside.trend.Slope;
import evenside.trend.Trend;
import java.util.Locale;
import java.util.SortedMap;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** One series with its trends as JSON. */
final class TrendDocument {
  static final double LEVEL = 0.95;

  private final MeasureCatalogue catalogue;

  TrendDocument(MeasureCatalogue catalogue) {
    this.catalogue = catalogue;
  }

  void series(CanonicalWriter json, Series series) {
    json.object().put("aggregation", series.aggregation());
    json.put("better", series.measure().better().name().toLowerCase(Locale.ROOT));
    json.put("earlierNotShown", series.earlierNotShown());
    json.put("measure", series.measure().code());
    OtherLeg.of(series, error(series, Aspect.OTHER))
        .ifPresent(leg -> otherLeg(json.name("otherLeg"), leg, series.measure().unit()));
    ProtocolDocument.write(json.name("protocol"), series.protocol());
    json.name("tests").array(series.tests(), TrendDocument::test);
    json.put("title", series.measure().title()).name("trends").array();
    for (Aspect aspect : Aspect.values()) {
      String unit = series.graded() ? Series.RANK : NumberBound.unitOf(series.measure(), aspect);
      Trend.of(series, aspect, unit, error(series, aspect)).ifPresent(trend -> trend(json, trend));
    }
    json.end().end();
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

  private static void test(CanonicalWriter json, Series.Test test) {
    SortedMap<String, Double> numbers = new TreeMap<>();
    test.numbers().forEach((aspect, value) -> numbers.put(aspect.code(), value));
    json.object().put("batteryId", test.batteryId()).name("numbers").object();
    numbers.forEach(json::put);
    json.end().put("performedOn", test.performedOn());
    json.put("weeks", Decimals.exact(test.weeks())).end();
  }

  private static void trend(CanonicalWriter json, Trend trend) {
    json.object().put("aspect", trend.aspect().code());
    if (trend.slope() != null) {
      slope(json.name("knownErrorSlope"), trend.slope());
    }
    if (trend.line() != null) {
      line(json.name("line"), trend.line());
    }
    if (trend.error() != null) {
      error(json.name("measurementError"), trend.error());
    }
    reading(json.name("newest"), trend.readings().get(trend.readings().size() - 1));
    if (trend.line() == null) {
      json.put("noLine", noLine(trend));
    }
    json.put("readings", trend.readings().size());
    if (trend.sinceFirst() != null) {
      step(json.name("sinceFirst"), trend.sinceFirst());
    }
    if (trend.sinceLast() != null) {
      step(json.name("sinceLast"), trend.sinceLast());
    }
    json.put("unit", trend.unit()).end();
  }

  private static void slope(CanonicalWriter json, Slope slope) {
    interval(json.object().name("interval"), slope.interval());
    json.put("perWeek", Decimals.exact(slope.perWeek()));
    json.put("standardError", Decimals.exact(slope.standardError()));
    json.put("verdict", verdict(slope.reliable())).put("z", slope.z()).end();
  }

  private static String noLine(Trend trend) {
    if (trend.unit().equals(Series.RANK)) {
      return "grades are compared by order; no line is fitted to them";
    }
    return trend.readings().size() < 3
        ? trend.readings().size() + " of the 3 tests that a line needs"
        : "all tests were done on the same day";
  }

  private static void step(CanonicalWriter json, Trend.Step step) {
    Change change = step.change();
    json.object();
    json.put("difference", Decimals.exact(step.to().value() - step.from().value()));
    reading(json.name("from"), step.from());
    if (change != null) {
      json.put("index", change.index()).put("mdc", change.smallest());
    }
    reading(json.name("to"), step.to());
    json.put("verdict", verdict(change)).end();
  }

  private static String verdict(@Nullable Change change) {
    return change == null ? "no-published-error" : verdict(change.reliable());
  }

  private static String verdict(boolean reliable) {
    return reliable ? "reliable" : "within-error";
  }

  private static void reading(CanonicalWriter json, Reading reading) {
    json.object().put("value", reading.value());
    json.put("weeks", Decimals.exact(reading.weeks())).end();
  }

  private static void error(CanonicalWriter json, MeasurementError error) {
    json.object();
    FindingDocument.studiedAggregation(json, error);
    json.put("population", error.population()).put("relative", error.relative());
    json.put("sem", error.sem()).put("source", error.source());
    json.put("verified", error.verified()).put("z", error.z()).end();
  }

  private static void line(CanonicalWriter json, Line line) {
    json.object().name("atNewest").object();
    interval(json.name("confidence"), line.confidence(line.last(), LEVEL));
    json.put("fit", Decimals.exact(line.at(line.last())));
    interval(json.name("prediction"), line.prediction(line.last(), LEVEL));
    json.end().put("explained", Decimals.exact(line.explained())).put("level", LEVEL);
    json.put("perWeek", Decimals.exact(line.slope()));
    interval(json.name("perWeekInterval"), line.slope(LEVEL));
    json.put("scatter", Decimals.exact(line.residual())).end();
  }

  private static void interval(CanonicalWriter json, Interval interval) {
    json.object().put("high", Decimals.exact(interval.high()));
    json.put("low", Decimals.exact(interval.low())).end();
  }

  private static void otherLeg(CanonicalWriter json, OtherLeg leg, String unit) {
    json.object();
    leg.againstReference().ifPresent(value -> percent(json.name("againstReference"), value));
    json.put("difference", Decimals.exact(leg.now() - leg.then()));
    json.put("lost", leg.lost()).put("now", leg.now());
    json.name("reference").object().put("beforeSurgery", leg.reference().weeks() <= 0);
    json.put("performedOn", leg.reference().performedOn()).put("value", leg.then()).end();
    leg.symmetry().ifPresent(value -> percent(json.name("symmetry"), value));
    json.put("text", otherLegText(leg, unit)).put("verdict", verdict(leg.change())).end();
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

  private static void percent(CanonicalWriter json, double value) {
    FindingDocument.quantity(json, value, "%");
  }
}
