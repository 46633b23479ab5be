package evenside.readiness;

import evenside.intake.Checked;
import evenside.schemas.Fault;
import evenside.schemas.Faults;
import java.util.List;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * What a validation found; nothing was stored.
 *
 * @param kind kind of document
 * @param schemaVersion version of the schema it was checked against
 * @param valid true if there is no fault
 * @param faults at most {@link Faults#MAX}
 * @param truncated true if there were more
 * @param warnings at most {@link Faults#MAX}
 */
public record CheckReport(
    String kind,
    String schemaVersion,
    boolean valid,
    List<Fault> faults,
    boolean truncated,
    List<Fault> warnings) {

  static CheckReport of(String kind, String schemaVersion, Checked checked) {
    return new CheckReport(
        kind,
        schemaVersion,
        checked.valid(),
        checked.faults().stream().limit(Faults.MAX).toList(),
        checked.faults().size() > Faults.MAX,
        checked.warnings().stream().limit(Faults.MAX).toList());
  }

  /** The form on the wire. */
  public ObjectNode toJson() {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("schemaVersion", schemaVersion).put("kind", kind).put("valid", valid);
    json.set("faults", array(faults));
    json.put("truncated", truncated);
    json.set("warnings", array(warnings));
    return json;
  }

  private static ArrayNode array(List<Fault> faults) {
    ArrayNode array = JsonNodeFactory.instance.arrayNode();
    faults.forEach(fault -> array.add(fault.toJson()));
    return array;
  }
}
