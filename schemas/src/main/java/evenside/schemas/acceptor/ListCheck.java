package evenside.schemas.acceptor;

import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;

/**
 * A list.
 *
 * @param items what each item must follow
 * @param one what at least one item must follow, or null
 */
record ListCheck(Check items, @Nullable Check one, int fewest, int most) implements Check {

  @Override
  public boolean accepts(JsonNode value) {
    if (!(value instanceof ArrayNode list)) {
      return false;
    }
    int size = list.size();
    if (size < fewest || size > most) {
      return false;
    }
    boolean found = one == null;
    for (int i = 0; i < size; i++) {
      JsonNode item = list.get(i);
      if (!items.accepts(item)) {
        return false;
      }
      found = found || (one != null && one.accepts(item));
    }
    return found;
  }
}
