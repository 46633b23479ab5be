package evenside.document;

import evenside.load.AcuteChronic;
import evenside.load.Figure;
import evenside.load.HoldReport;
import evenside.load.LoadReport;
import java.util.List;
import java.util.Map;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** What was trained, in numbers, as JSON. */
public final class LoadDocument {
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  private LoadDocument() {}

  public static ObjectNode of(LoadReport report) {
    ObjectNode json = JSON.objectNode();
    json.put("weekEnding", report.weekEnding().toString());
    json.put("knownDays", report.knownDays()).put("sessions", report.sessions());
    json.set("week", figure(report.week().load()));
    json.set("monotony", figure(report.week().monotony()));
    json.set("strain", figure(report.week().strain()));
    json.put("sdMethod", report.week().method().code());
    json.set("weekChange", figure(report.change()));
    json.set("longestRun30Days", figure(report.longestRun()));
    ObjectNode lastRun = figure(report.lastRun());
    if (report.band() != null) {
      lastRun.put("band", report.band().code());
    }
    json.set("lastRunAgainstLongest", lastRun);
    json.putObject("contacts")
        .put("both", report.contacts().both())
        .put("left", report.contacts().left())
        .put("right", report.contacts().right())
        .put("total", report.contacts().total());
    json.set("tonnage", figure(report.tonnage()));
    json.set("adherence", figure(report.adherence()));
    ArrayNode estimates = json.putArray("oneRepetitionEstimates");
    report.estimates().forEach(estimate -> estimates.add(estimate(estimate)));
    if (!report.acuteChronic().isEmpty()) {
      json.set("acuteChronic", acuteChronic(report.acuteChronic()));
    }
    return json;
  }

  /** Core holds beside their norms. */
  public static ArrayNode holds(List<HoldReport> reports) {
    ArrayNode array = JSON.arrayNode();
    for (HoldReport report : reports) {
      ObjectNode json = array.addObject().put("exercise", report.exercise().code());
      ObjectNode longest = json.putObject("longest");
      report.longest().forEach((limb, seconds) -> longest.put(limb.code(), seconds));
      json.put("unit", "s");
      report
          .symmetry()
          .ifPresent(index -> json.putObject("symmetry").put("value", index).put("unit", "%"));
      ArrayNode norms = json.putArray("norms");
      report.against().forEach(against -> norms.add(against(against)));
    }
    return array;
  }

  private static ObjectNode against(HoldReport.Against against) {
    ObjectNode json = JSON.objectNode().put("people", against.norm().people());
    json.put("mean", against.norm().mean()).put("sd", against.norm().sd());
    json.put("relativeToMean", against.relativeToMean());
    return json.put("source", against.norm().source());
  }

  private static ObjectNode estimate(LoadReport.Estimate estimate) {
    ObjectNode json = JSON.objectNode();
    json.put("session", estimate.session()).put("exercise", estimate.exercise());
    json.put("side", estimate.side()).put("formula", estimate.formula().code());
    json.set("estimate", figure(estimate.estimate()));
    return json;
  }

  private static ArrayNode acuteChronic(Map<AcuteChronic, AcuteChronic.Result> results) {
    ArrayNode array = JSON.arrayNode();
    results.forEach(
        (form, result) -> {
          ObjectNode json = array.addObject().put("method", form.code());
          json.put("descriptiveOnly", true);
          json.set("acute", figure(result.acute()));
          json.set("chronic", figure(result.chronic()));
          json.set("ratio", figure(result.ratio()));
        });
    return array;
  }

  private static ObjectNode figure(Figure figure) {
    ObjectNode json = JSON.objectNode();
    if (figure.value() != null) {
      json.put("value", figure.value());
    }
    json.put("unit", figure.unit());
    if (figure.reason() != null) {
      json.put("reason", figure.reason());
    }
    return json;
  }
}
