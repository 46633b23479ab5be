package evenside.api.problem;

import evenside.schemas.Fault;
import evenside.schemas.NotJson;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * One failed request, as RFC 9457 describes it.
 *
 * @param type the kind
 * @param detail what happened this time; never repeats text that was sent
 * @param faults each thing wrong with the document, if that is what failed
 * @param truncated whether there were more faults
 * @param place where the body stopped being JSON, if that is what failed
 * @param headers headers that belong to the answer
 */
public record Problem(
    ProblemType type,
    String detail,
    List<Fault> faults,
    boolean truncated,
    Optional<NotJson> place,
    Map<String, String> headers) {
  /** Media type of a problem. */
  public static final String MEDIA_TYPE = "application/problem+json";

  /** Keeps its own copies. */
  public Problem {
    faults = List.copyOf(faults);
    headers = Map.copyOf(headers);
  }

  /** A problem that its kind and a sentence say all about. */
  public static Problem of(ProblemType type, String detail) {
    return new Problem(type, detail, List.of(), false, Optional.empty(), Map.of());
  }

  /** A document with faults. */
  public static Problem withFaults(
      ProblemType type, String detail, List<Fault> faults, boolean truncated) {
    return new Problem(type, detail, faults, truncated, Optional.empty(), Map.of());
  }

  /** A body that is not JSON. */
  public static Problem notJson(ProblemType type, NotJson reason) {
    return new Problem(type, reason.detail(), List.of(), false, Optional.of(reason), Map.of());
  }

  /** The same problem whose answer carries one more header. */
  public Problem withHeader(String name, String value) {
    Map<String, String> more = new LinkedHashMap<>(headers);
    more.put(name, value);
    return new Problem(type, detail, faults, truncated, place, more);
  }

  /** As an exception, to be thrown. */
  public ProblemException asException() {
    return new ProblemException(this);
  }

  /** The form on the wire, for the request {@code requestId}. */
  public ObjectNode toJson(String requestId) {
    ObjectNode json =
        JsonNodeFactory.instance
            .objectNode()
            .put("type", type.uri())
            .put("title", type.title())
            .put("status", type.status())
            .put("detail", detail)
            .put("instance", "urn:uuid:" + requestId);
    place.ifPresent(reason -> addPlace(json, reason));
    if (!faults.isEmpty()) {
      ArrayNode list = json.putArray("faults");
      faults.forEach(fault -> list.add(fault.toJson()));
      json.put("truncated", truncated);
    }
    return json;
  }

  private static void addPlace(ObjectNode json, NotJson reason) {
    json.put("code", reason.code());
    reason.location().ifPresent(at -> json.put("line", at.line()).put("column", at.column()));
  }
}
