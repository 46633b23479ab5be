package evenside.api.fhir;

import java.util.Map;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** A criterion as the condition of an action. */
final class CriterionConditions {
  private static final Map<String, String> IN_WORDS =
      Map.of(">=", "at least", ">", "more than", "<=", "at most", "<", "less than");

  private final Codes codes;

  CriterionConditions(Codes codes) {
    this.codes = codes;
  }

  Codes codes() {
    return codes;
  }

  ObjectNode of(JsonNode criterion) {
    ObjectNode condition = Fhir.object().put("kind", "applicability");
    ObjectNode expression = condition.putObject("expression");
    expression.put("description", words(criterion)).put("language", "text/fhirpath");
    expression.put("expression", path(criterion));
    return condition;
  }

  private String words(JsonNode criterion) {
    String title = criterion.path("title").asString();
    return switch (criterion.path("type").asString()) {
      case "all" -> title + ": all of the parts";
      case "any" -> title + ": at least one of the parts";
      case "at-least" -> title + ": at least " + criterion.path("count").asInt() + " of the parts";
      case "fact" -> title + ": " + (criterion.path("expected").asBoolean(false) ? "yes" : "no");
      default -> title + ": " + bound(criterion);
    };
  }

  private static String bound(JsonNode criterion) {
    String unit = criterion.path("unit").asString("");
    String comparator = criterion.path("comparator").asString("");
    return IN_WORDS.getOrDefault(comparator, comparator)
        + " "
        + criterion.path("bound").asString()
        + (unit.isEmpty() || unit.equals("1") ? "" : " " + unit);
  }

  /** An illustration over the Observations of a Bundle; of what it cannot say, nothing. */
  private String path(JsonNode criterion) {
    String observations = "Bundle.entry.resource.ofType(Observation)";
    return switch (criterion.path("type").asString()) {
      case "cut-off" ->
          observations
              + coded(concept(criterion))
              + ".value.ofType(Quantity).where(code = '"
              + criterion.path("unit").asString()
              + "').value.first() "
              + criterion.path("comparator").asString()
              + " "
              + criterion.path("bound").asString();
      case "fact" ->
          observations
              + coded(codes.measure(criterion.path("measure").asString()))
              + ".value.ofType(boolean).first() = "
              + criterion.path("expected").asBoolean(false);
      default -> "{}";
    };
  }

  private ObjectNode concept(JsonNode criterion) {
    String measure = criterion.path("measure").asString();
    String aspect = criterion.path("aspect").asString();
    boolean compared = aspect.equals("symmetry") || aspect.equals("difference");
    return compared ? codes.symmetry(measure) : codes.aspect(measure, aspect);
  }

  private static String coded(ObjectNode concept) {
    JsonNode coding = concept.path("coding").get(0);
    return ".where(code.coding.exists(system = '%s' and code = '%s'))"
        .formatted(coding.path("system").asString(), coding.path("code").asString());
  }
}
