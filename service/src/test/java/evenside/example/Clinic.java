package evenside.example;

import evenside.document.Document;
import evenside.readiness.Desk;
import evenside.readiness.recording.Refused;
import evenside.schemas.Contract;
import evenside.schemas.StrictJson;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Asks the published criteria sets about invented people, the way a caller does. */
public final class Clinic {
  public static final Contract CONTRACT = Contract.published();
  public static final Instant NOW = Instant.parse("2026-11-02T12:00:00Z");
  public static final Desk DESK = Desk.of(CONTRACT, InstantSource.fixed(NOW));

  /** Thirteen months before {@link #TODAY}. */
  public static final String SURGERY = "2025-10-01";

  public static final String TODAY = "2026-11-02";

  private Clinic() {}

  /** A left knee, primary reconstruction, the other knee without history, a man of 36. */
  public static ObjectNode person() {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("schemaVersion", "1.0").put("subject", "P-1").put("surgeryDate", SURGERY);
    json.put("operatedSide", TestDay.OPERATED).put("graft", "quadriceps-tendon");
    json.put("otherKnee", "none").put("sex", "male").put("birthYear", 1990);
    return json;
  }

  /** The names {@code id/version} of all published criteria sets. */
  public static List<String> sets() {
    return CONTRACT.criteriaSets().stream()
        .map(set -> set.path("id").asString() + "/" + set.path("version").asString())
        .toList();
  }

  /** The document of a published criteria set. */
  public static JsonNode set(String name) {
    String[] parts = name.split("/", 2);
    byte[] bytes = CONTRACT.criteriaSet(parts[0], parts[1]).orElseThrow();
    return StrictJson.read(bytes, StrictJson.Limits.OWN);
  }

  /** A request to assess; sets are named {@code id/version}. */
  public static ObjectNode request(ObjectNode person, List<String> sets, TestDay... days) {
    ObjectNode json = JsonNodeFactory.instance.objectNode().put("schemaVersion", "1.0");
    json.set("case", person);
    ArrayNode batteries = json.putArray("batteries");
    for (TestDay day : days) {
      batteries.add(day.json());
    }
    ArrayNode named = json.putArray("criteriaSets");
    for (String set : sets) {
      String[] parts = set.split("/", 2);
      named.addObject().put("id", parts[0]).put("version", parts[1]);
    }
    return json;
  }

  /** What one set says as of a date. */
  public static Verdict ask(String set, ObjectNode person, String asOf, TestDay... days) {
    return decide(request(person, List.of(set), days).put("asOf", asOf));
  }

  /** What one set says today about the person of {@link #person}. */
  public static Verdict ask(String set, TestDay... days) {
    return ask(set, person(), TODAY, days);
  }

  /** The answer to a request that names one set. */
  public static Verdict decide(ObjectNode request) {
    return new Verdict(assess(request).path("decisions").path(0));
  }

  /** The whole answer to a request. */
  public static JsonNode assess(ObjectNode request) {
    try {
      return read(DESK.assess(request));
    } catch (Refused refused) {
      throw new AssertionError(refused.detail() + refused.faults(), refused);
    }
  }

  public static JsonNode read(Document document) {
    return StrictJson.read(document.bytes(), StrictJson.Limits.OWN);
  }
}
