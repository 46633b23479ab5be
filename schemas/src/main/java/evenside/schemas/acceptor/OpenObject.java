package evenside.schemas.acceptor;

import evenside.schemas.acceptor.Members.Member;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * An object in which only the named members matter; they are asked for by name.
 *
 * @param otherTypes whether what is no object is taken
 */
record OpenObject(List<Member> members, int fewest, int most, boolean otherTypes) implements Check {

  @Override
  public boolean accepts(JsonNode value) {
    if (!(value instanceof ObjectNode object)) {
      return otherTypes;
    }
    if (object.size() < fewest || object.size() > most) {
      return false;
    }
    for (int i = 0; i < members.size(); i++) {
      Member member = members.get(i);
      JsonNode there = object.get(member.name());
      if (there == null ? member.required() != 0 : !member.check().accepts(there)) {
        return false;
      }
    }
    return true;
  }
}
