package evenside.document;

import evenside.plan.Adherence;
import evenside.quantity.Decimals;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** What was trained of what was planned, as JSON. */
public final class AdherenceDocument {
  private AdherenceDocument() {}

  public static ObjectNode of(Adherence adherence) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("from", adherence.from().toString()).put("to", adherence.to().toString());
    json.put("sessions", adherence.sessions());
    ArrayNode items = json.putArray("items");
    adherence.items().forEach(item -> items.add(item(item)));
    ArrayNode unplanned = json.putArray("unplanned");
    adherence.unplanned().forEach(unplanned::add);
    return json;
  }

  private static ObjectNode item(Adherence.Item item) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("exercise", item.planned().exercise());
    json.put("timesPerWeek", item.planned().timesPerWeek());
    json.put("planned", Decimals.exact(item.times()));
    json.put("done", item.done());
    if (item.times() > 0) {
      json.put("percent", Decimals.exact(100 * item.done() / item.times()));
    }
    ArrayNode weeks = json.putArray("weeks");
    for (Adherence.Week week : item.weeks()) {
      weeks
          .addObject()
          .put("from", week.from().toString())
          .put("days", week.days())
          .put("done", week.done());
    }
    return json;
  }
}
