package evenside.document;

import evenside.decision.Decision;
import evenside.decision.Engine;
import evenside.measure.MeasureCatalogue;
import evenside.plan.Outlook;
import evenside.trend.Series;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;

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
  public record Course(
      String schemaVersion,
      String caseId,
      LocalDate surgery,
      LocalDate asOf,
      List<Series> series,
      Map<Decision, List<Outlook>> outlooks) {}

  /**
   * The answer.
   *
   * @param catalogue for the errors of the tests
   */
  public static Document of(Course course, MeasureCatalogue catalogue) {
    return Document.written(json -> write(json, course, new TrendDocument(catalogue)));
  }

  private static void write(CanonicalWriter json, Course course, TrendDocument trends) {
    OutlookDocument outlook = new OutlookDocument(course.surgery());
    json.object().put("asOf", course.asOf()).name("assumptions").texts(ASSUMPTIONS);
    json.put("caseId", course.caseId()).put("engineVersion", Engine.VERSION);
    json.name("outlooks").array();
    course.outlooks().forEach((decision, criteria) -> set(json, decision, criteria, outlook));
    json.end().put("schemaVersion", course.schemaVersion());
    json.name("series").array(course.series(), trends::series);
    json.put("surgeryDate", course.surgery()).end();
  }

  private static void set(
      CanonicalWriter json, Decision decision, List<Outlook> criteria, OutlookDocument outlook) {
    json.object().name("criteria").array(criteria, outlook::write);
    json.name("criteriaSet").object().put("id", decision.criteriaSet().id());
    json.put("version", decision.criteriaSet().version()).end();
    json.put("milestone", decision.criteriaSet().milestone());
    json.put("outcome", decision.outcome().code()).end();
  }
}
