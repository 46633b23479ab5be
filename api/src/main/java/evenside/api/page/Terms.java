package evenside.api.page;

import evenside.schemas.Contract;
import java.util.HashMap;
import java.util.Map;
import tools.jackson.databind.JsonNode;

/** What codes are called, from the catalogue. A code without a name is shown as it is. */
public final class Terms {
  private final Map<String, String> measures;
  private final Map<String, String> milestones;

  /** The names in a contract. */
  public Terms(Contract contract) {
    this.measures = titles(contract.catalogue("measures").path("measures"));
    this.milestones = titles(contract.catalogue("milestones").path("milestones"));
  }

  /** What is measured. */
  public String measure(String code) {
    return measures.getOrDefault(code, code);
  }

  /** A milestone. */
  public String milestone(String code) {
    return milestones.getOrDefault(code, code);
  }

  private static Map<String, String> titles(JsonNode entries) {
    Map<String, String> titles = new HashMap<>();
    entries.forEach(
        entry -> titles.put(entry.path("code").asString(), entry.path("title").asString()));
    return Map.copyOf(titles);
  }
}
