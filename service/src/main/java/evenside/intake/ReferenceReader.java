package evenside.intake;

import evenside.measure.Aspect;
import evenside.measure.ReferenceValue;
import evenside.schemas.Contract;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** Reads the published reference values. */
final class ReferenceReader {
  private final Contract contract;
  private final UnaryOperator<String> citation;

  /**
   * A reader of one contract.
   *
   * @param citation turns the key of a source into its citation
   */
  ReferenceReader(Contract contract, UnaryOperator<String> citation) {
    this.contract = contract;
    this.citation = citation;
  }

  List<ReferenceValue> all() {
    List<ReferenceValue> values = new ArrayList<>();
    contract.catalogue("reference-values").path("values").forEach(json -> values.add(value(json)));
    return values;
  }

  private ReferenceValue value(JsonNode json) {
    Set<String> measures = new LinkedHashSet<>();
    json.path("measures").forEach(code -> measures.add(code.asString()));
    return new ReferenceValue(
        json.path("id").asString(),
        measures,
        Aspect.of(json.path("aspect").asString()),
        CriteriaSetReader.rule(json.path("protocol")),
        json.path("unit").asString(),
        json.path("statistic").asString(),
        CriteriaSetReader.sex(json),
        number(json, "mean"),
        number(json, "sd"),
        number(json, "low"),
        number(json, "high"),
        number(json, "value"),
        json.path("population").asString(),
        citation.apply(json.path("source").asString()),
        json.path("verified").asBoolean(),
        json.path("note").asString());
  }

  private static @Nullable Double number(JsonNode json, String member) {
    return json.path(member).isNumber() ? json.path(member).asDouble() : null;
  }
}
