package evenside.schemas.acceptor;

import evenside.schemas.acceptor.Members.Member;
import java.util.Map;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * An object whose every member is looked at: closed, or with rules for all names or for the members
 * that are not named.
 *
 * @param required bits of the members that must be there
 * @param others what members that are not named must follow
 * @param names what every name must follow, or null
 * @param otherTypes whether what is no object is taken
 */
record ClosedObject(
    Members members,
    long required,
    Check others,
    TextRule names,
    int fewest,
    int most,
    boolean otherTypes)
    implements Check {

  @Override
  public boolean accepts(JsonNode value) {
    if (!(value instanceof ObjectNode object)) {
      return otherTypes;
    }
    if (object.size() < fewest || object.size() > most) {
      return false;
    }
    long missing = required;
    for (Map.Entry<String, JsonNode> entry : object.properties()) {
      Member member = members.of(entry.getKey());
      if (member == null) {
        if (!others.accepts(entry.getValue())) {
          return false;
        }
      } else {
        missing &= ~member.required();
        if (!member.check().accepts(entry.getValue())) {
          return false;
        }
      }
      if (!names.accepts(entry.getKey())) {
        return false;
      }
    }
    return missing == 0;
  }
}
