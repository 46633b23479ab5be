package evenside.readiness;

import evenside.document.Document;
import evenside.schemas.Contract;
import evenside.schemas.StrictJson;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.InstantSource;
import java.util.function.Predicate;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Published examples and answers as trees. */
public final class Documents {
  public static final Contract CONTRACT = Contract.published();
  public static final Instant NOW = Instant.parse("2026-10-01T12:00:00Z");
  public static final Desk DESK = Desk.of(CONTRACT, InstantSource.fixed(NOW));

  private Documents() {}

  /** The valid example battery that holds every measure, as a copy of the test's own. */
  public static ObjectNode everyMeasure() {
    return example("valid/battery/every-measure");
  }

  public static ObjectNode example(String name) {
    try (InputStream file = Documents.class.getResourceAsStream("/examples/" + name + ".json")) {
      return (ObjectNode) StrictJson.read(file.readAllBytes(), StrictJson.Limits.OWN);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  public static JsonNode tree(Document document) {
    return StrictJson.read(document.bytes(), StrictJson.Limits.OWN);
  }

  /** A left knee of an invented woman, operated thirteen months before {@link #NOW}. */
  public static ObjectNode person() {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("schemaVersion", "1.0").put("subject", "P-1").put("surgeryDate", "2025-09-01");
    json.put("operatedSide", "left").put("graft", "quadriceps-tendon");
    json.put("otherKnee", "none").put("sex", "female").put("birthYear", 1994);
    return json;
  }

  /** A request to assess one battery by one published set. */
  public static ObjectNode request(JsonNode battery, String set, String version) {
    ObjectNode json = JsonNodeFactory.instance.objectNode().put("schemaVersion", "1.0");
    json.set("case", person());
    json.putArray("batteries").add(battery);
    json.putArray("criteriaSets").addObject().put("id", set).put("version", version);
    return json.put("asOf", "2026-10-01");
  }

  public static JsonNode assess(JsonNode battery) {
    return tree(DESK.assess(request(battery, "delaware-oslo", "2020.1")));
  }

  /** The first entry of a list that passes. */
  public static JsonNode first(JsonNode list, Predicate<JsonNode> wanted) {
    return list.valueStream()
        .filter(wanted)
        .findFirst()
        .orElseThrow(() -> new AssertionError("nothing fits in " + list));
  }

  public static Predicate<JsonNode> has(String member, String value) {
    return json -> json.path(member).asString("").equals(value);
  }
}
