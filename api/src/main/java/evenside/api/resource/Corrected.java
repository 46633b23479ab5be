package evenside.api.resource;

import evenside.readiness.cases.Corrections;
import java.util.List;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/** Which of the batteries behind a decision no longer count: a decision itself never changes. */
final class Corrected {
  private Corrected() {}

  /** The entries of {@code batteries} whose battery was corrected since. */
  static List<JsonNode> batteries(Corrections corrections, String clinic, JsonNode decision) {
    List<JsonNode> batteries = decision.path("batteries").valueStream().toList();
    Set<String> corrected =
        corrections.corrected(clinic, batteries.stream().map(Corrected::id).toList());
    return batteries.stream().filter(battery -> corrected.contains(id(battery))).toList();
  }

  private static String id(JsonNode battery) {
    return battery.path("batteryId").asString();
  }
}
