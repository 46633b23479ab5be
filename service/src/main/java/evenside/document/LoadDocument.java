package evenside.document;

import evenside.load.AcuteChronic;
import evenside.load.Figure;
import evenside.load.HoldReport;
import evenside.load.LoadReport;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/** What was trained, in numbers, as JSON. */
final class LoadDocument {
  private LoadDocument() {}

  /**
   * The report with core holds beside their norms.
   *
   * @param holds core holds
   */
  static void write(CanonicalWriter json, LoadReport report, List<HoldReport> holds) {
    json.object();
    if (!report.acuteChronic().isEmpty()) {
      acuteChronic(json.name("acuteChronic"), report.acuteChronic());
    }
    figure(json.name("adherence"), report.adherence());
    json.name("contacts").object().put("both", report.contacts().both());
    json.put("left", report.contacts().left()).put("right", report.contacts().right());
    json.put("total", report.contacts().total()).end();
    json.name("holds").array(holds, LoadDocument::hold);
    json.put("knownDays", report.knownDays());
    lastRun(json.name("lastRunAgainstLongest"), report);
    figure(json.name("longestRun30Days"), report.longestRun());
    figure(json.name("monotony"), report.week().monotony());
    json.name("oneRepetitionEstimates").array(report.estimates(), LoadDocument::estimate);
    json.put("sdMethod", report.week().method().code()).put("sessions", report.sessions());
    figure(json.name("strain"), report.week().strain());
    figure(json.name("tonnage"), report.tonnage());
    figure(json.name("week"), report.week().load());
    figure(json.name("weekChange"), report.change());
    json.put("weekEnding", report.weekEnding()).end();
  }

  private static void lastRun(CanonicalWriter json, LoadReport report) {
    json.object();
    if (report.band() != null) {
      json.put("band", report.band().code());
    }
    inFigure(json, report.lastRun());
  }

  private static void hold(CanonicalWriter json, HoldReport report) {
    SortedMap<String, Double> longest = new TreeMap<>();
    report.longest().forEach((limb, seconds) -> longest.put(limb.code(), (double) seconds));
    json.object().put("exercise", report.exercise().code()).name("longest").object();
    longest.forEach(json::put);
    json.end().name("norms").array(report.against(), LoadDocument::against);
    report
        .symmetry()
        .ifPresent(index -> FindingDocument.quantity(json.name("symmetry"), index, "%"));
    json.put("unit", "s").end();
  }

  private static void against(CanonicalWriter json, HoldReport.Against against) {
    json.object().put("mean", against.norm().mean()).put("people", against.norm().people());
    json.put("relativeToMean", against.relativeToMean()).put("sd", against.norm().sd());
    json.put("source", against.norm().source()).end();
  }

  private static void estimate(CanonicalWriter json, LoadReport.Estimate estimate) {
    figure(json.object().name("estimate"), estimate.estimate());
    json.put("exercise", estimate.exercise()).put("formula", estimate.formula().code());
    json.put("session", estimate.session()).put("side", estimate.side()).end();
  }

  private static void acuteChronic(
      CanonicalWriter json, Map<AcuteChronic, AcuteChronic.Result> results) {
    json.array();
    results.forEach(
        (form, result) -> {
          figure(json.object().name("acute"), result.acute());
          figure(json.name("chronic"), result.chronic());
          json.put("descriptiveOnly", true).put("method", form.code());
          figure(json.name("ratio"), result.ratio());
          json.end();
        });
    json.end();
  }

  private static void figure(CanonicalWriter json, Figure figure) {
    inFigure(json.object(), figure);
  }

  private static void inFigure(CanonicalWriter json, Figure figure) {
    json.putIfAny("reason", figure.reason()).put("unit", figure.unit());
    json.putIfAny("value", figure.value()).end();
  }
}
