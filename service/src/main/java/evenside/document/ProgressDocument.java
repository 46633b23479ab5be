package evenside.document;

import evenside.decision.Decision;
import evenside.decision.Engine;
import evenside.measure.MeasureCatalogue;
import evenside.plan.Outlook;
import evenside.trend.Series;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Recovery over time as JSON. */
public final class ProgressDocument {
  private static final List<String> ASSUMPTIONS =
      List.of(
          "Numbers are compared only where test, protocol and scoring are the same.",
          "A change is reliable if it exceeds z times √2 times the published SEM of the test; the"
              + " SEM belongs to the people it was measured on.",
          "With every further test the chance of a false change grows; from three tests on, the"
              + " slope says more than any single difference.",
          "A fitted line assumes a steady pace. Recovery usually slows, so late dates tend to be"
              + " too early; no line is run on beyond 1.25 times the observed span.",
          "Intervals rest on the scatter about the line, or on the published SEM where that is"
              + " larger.",
          "A date is arithmetic on past tests: it promises nothing and clears nobody.");

  private ProgressDocument() {}

  /**
   * Everything that can be said of a case's numbers over time.
   *
   * @param outlooks for each set, the criteria that are not met
   */
  public static ObjectNode of(
      LocalDate surgery,
      LocalDate asOf,
      List<Series> series,
      Map<Decision, List<Outlook>> outlooks,
      MeasureCatalogue catalogue) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("asOf", asOf.toString());
    json.put("surgeryDate", surgery.toString());
    json.put("engineVersion", Engine.VERSION);
    TrendDocument trends = new TrendDocument(catalogue);
    ArrayNode all = json.putArray("series");
    series.forEach(one -> all.add(trends.series(one)));
    OutlookDocument outlook = new OutlookDocument(surgery);
    ArrayNode sets = json.putArray("outlooks");
    outlooks.forEach((decision, criteria) -> sets.add(set(decision, criteria, outlook)));
    ArrayNode assumptions = json.putArray("assumptions");
    ASSUMPTIONS.forEach(assumptions::add);
    return json;
  }

  private static ObjectNode set(
      Decision decision, List<Outlook> criteria, OutlookDocument outlook) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.putObject("criteriaSet")
        .put("id", decision.criteriaSet().id())
        .put("version", decision.criteriaSet().version());
    json.put("milestone", decision.criteriaSet().milestone());
    json.put("outcome", decision.outcome().code());
    ArrayNode all = json.putArray("criteria");
    criteria.forEach(one -> all.add(outlook.of(one)));
    return json;
  }
}
