package evenside.document;

import evenside.plan.Adherence;
import evenside.quantity.Decimals;

/** What was trained of what was planned, as JSON. */
public final class AdherenceDocument {
  private AdherenceDocument() {}

  /**
   * The answer.
   *
   * @param planId the plan adopted
   * @param caseId its case
   */
  public static Document of(
      String schemaVersion, String planId, String caseId, Adherence adherence) {
    return Document.written(
        json -> {
          json.object().put("caseId", caseId).put("from", adherence.from());
          json.name("items").array(adherence.items(), AdherenceDocument::item);
          json.put("planId", planId).put("schemaVersion", schemaVersion);
          json.put("sessions", adherence.sessions()).put("to", adherence.to());
          json.name("unplanned").texts(adherence.unplanned()).end();
        });
  }

  private static void item(CanonicalWriter json, Adherence.Item item) {
    json.object().put("completed", item.completed()).put("exercise", item.planned().exercise());
    if (item.times() > 0) {
      json.put("percent", Decimals.exact(100 * item.completed() / item.times()));
    }
    json.put("planned", Decimals.exact(item.times()));
    json.put("timesPerWeek", item.planned().timesPerWeek());
    json.name("weeks").array(item.weeks(), AdherenceDocument::week).end();
  }

  private static void week(CanonicalWriter json, Adherence.Week week) {
    json.object().put("completed", week.completed()).put("days", week.days());
    json.put("from", week.from()).end();
  }
}
