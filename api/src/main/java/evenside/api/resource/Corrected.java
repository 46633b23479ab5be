package evenside.api.resource;

import evenside.readiness.Corrections;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Which of the batteries behind a decision no longer count: a decision itself never changes. */
final class Corrected {
  private Corrected() {}

  /** The entries of {@code batteries} whose battery was corrected since. */
  static List<JsonNode> batteries(Corrections corrections, String clinic, JsonNode decision) {
    return decision
        .path("batteries")
        .valueStream()
        .filter(
            battery ->
                JsonMapper.shared()
                    .readTree(corrections.of(clinic, battery.path("batteryId").asString()).bytes())
                    .has("replacedBy"))
        .toList();
  }
}
