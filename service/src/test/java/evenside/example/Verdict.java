package evenside.example;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;

/**
 * What a criteria set says, as it is served.
 *
 * @param json a decision
 */
public record Verdict(JsonNode json) {

  public String outcome() {
    return json.path("outcome").asString();
  }

  /** The outcome of one criterion. */
  public String outcome(String criterion) {
    return leaf(criterion).path("outcome").asString();
  }

  public String reason(String criterion) {
    return leaf(criterion).path("reason").path("code").asString("");
  }

  /** The value seen for one criterion; it must be a quantity. */
  public double value(String criterion) {
    return leaf(criterion).path("value").path("value").asDouble();
  }

  public JsonNode leaf(String criterion) {
    return leaves().stream()
        .filter(leaf -> leaf.path("id").asString().equals(criterion))
        .findFirst()
        .orElseThrow(() -> new AssertionError("no criterion " + criterion + " in " + json));
  }

  /** Every single finding, required and informative. */
  public List<JsonNode> leaves() {
    List<JsonNode> leaves = new ArrayList<>();
    Stream.concat(Stream.of(json.path("finding")), json.path("informative").valueStream())
        .forEach(finding -> collect(finding, leaves));
    return leaves;
  }

  public List<String> undetermined() {
    return texts(json.path("undetermined"));
  }

  public List<String> notMet() {
    return texts(json.path("notMet"));
  }

  public List<String> cautions() {
    return json.path("cautions").valueStream().map(one -> one.path("code").asString()).toList();
  }

  public JsonNode caution(String code) {
    return json.path("cautions")
        .valueStream()
        .filter(one -> one.path("code").asString().equals(code))
        .findFirst()
        .orElseThrow(() -> new AssertionError("no caution " + code + " in " + json));
  }

  public String cautionText(String code) {
    return caution(code).path("text").asString();
  }

  private static List<String> texts(JsonNode array) {
    return array.valueStream().map(JsonNode::asString).toList();
  }

  private static void collect(JsonNode finding, List<JsonNode> leaves) {
    if (finding.has("of")) {
      finding.path("of").forEach(child -> collect(child, leaves));
    } else {
      leaves.add(finding);
    }
  }
}
