package evenside.api.page.decision;

import java.util.List;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;

/** The cautions of a decision, those first that call for action now. */
final class Cautions {
  private Cautions() {}

  static List<DecisionSheet.Caution> urgent(JsonNode cautions) {
    return read(cautions.valueStream().filter(Cautions::isUrgent));
  }

  static List<DecisionSheet.Caution> others(JsonNode cautions) {
    return read(cautions.valueStream().filter(one -> !isUrgent(one)));
  }

  private static boolean isUrgent(JsonNode caution) {
    return caution.path("urgent").asBoolean(false);
  }

  private static List<DecisionSheet.Caution> read(Stream<JsonNode> cautions) {
    return cautions
        .map(
            one ->
                new DecisionSheet.Caution(
                    one.path("text").asString(), one.path("source").asString("")))
        .toList();
  }
}
