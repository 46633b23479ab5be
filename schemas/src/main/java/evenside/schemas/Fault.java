package evenside.schemas;

import java.nio.charset.StandardCharsets;
import java.util.Comparator;
import java.util.Optional;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * One thing wrong with a document, and where; on the wire the {@code fault} of the common schema.
 *
 * @param pointer JSON Pointer (RFC 6901) as a URI fragment, for example {@code
 *     #/results/hopDistance/0/unit}; {@code #} is the whole document. A missing or surplus member
 *     is named itself, not its parent
 * @param code stable code from {@code catalogue/fault-codes.json}
 * @param detail what is wrong, in English; never repeats the value that was sent
 * @param limit the bound or the allowed values as text
 * @param schema where in which schema the rule stands; absent for a rule no schema can state
 */
public record Fault(
    String pointer, String code, String detail, Optional<String> limit, Optional<String> schema) {

  /** By pointer, then by code: the order of every list of faults. */
  public static final Comparator<Fault> ORDER =
      Comparator.comparing(Fault::pointer).thenComparing(Fault::code);

  /** A fault without a limit or a schema. */
  public static Fault at(JsonPointer place, String code, String detail) {
    return new Fault(fragment(place), code, detail, Optional.empty(), Optional.empty());
  }

  /** The same fault with the bound or the allowed values. */
  public Fault withLimit(String limit) {
    return new Fault(pointer, code, detail, Optional.of(limit), schema);
  }

  /** The same fault with the place of its rule. */
  public Fault withSchema(String schema) {
    return new Fault(pointer, code, detail, limit, Optional.of(schema));
  }

  /** The form on the wire; what is absent is left out. */
  public ObjectNode toJson() {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("pointer", pointer).put("code", code).put("detail", detail);
    limit.ifPresent(text -> json.put("limit", text));
    schema.ifPresent(text -> json.put("schema", text));
    return json;
  }

  /**
   * The pointer as a URI fragment: RFC 6901 section 6, percent-encoded where RFC 3986 asks for it.
   */
  public static String fragment(JsonPointer place) {
    StringBuilder fragment = new StringBuilder("#");
    for (byte unit : place.toString().getBytes(StandardCharsets.UTF_8)) {
      if (standsInFragment((char) (unit & 0xFF))) {
        fragment.append((char) unit);
      } else {
        fragment.append("%%%02X".formatted(unit));
      }
    }
    return fragment.toString();
  }

  private static boolean standsInFragment(char c) {
    boolean letterOrDigit =
        (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    return letterOrDigit || "-._~!$&'()*+,;=:@/?".indexOf(c) >= 0;
  }
}
