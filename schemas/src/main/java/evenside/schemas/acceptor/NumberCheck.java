package evenside.schemas.acceptor;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.BigIntegerNode;
import tools.jackson.databind.node.DecimalNode;
import tools.jackson.databind.node.IntNode;
import tools.jackson.databind.node.LongNode;

/**
 * A number between bounds, compared by its decimal value: 1, 1.0 and 1e0 are one number, and each
 * is whole. Of a number kept as binary this has no opinion.
 *
 * @param lowest lower bound, or null
 * @param highest upper bound, or null
 * @param lowestIn whether the lower bound itself is taken
 * @param highestIn whether the upper bound itself is taken
 * @param whole whether only whole numbers are taken
 */
record NumberCheck(
    @Nullable BigDecimal lowest,
    boolean lowestIn,
    @Nullable BigDecimal highest,
    boolean highestIn,
    boolean whole)
    implements Check {

  @Override
  public boolean accepts(JsonNode value) {
    if (value instanceof DecimalNode) {
      BigDecimal number = value.decimalValue();
      return between(number) && (!whole || isWhole(number));
    }
    boolean exact =
        value instanceof IntNode || value instanceof LongNode || value instanceof BigIntegerNode;
    return exact && between(value.decimalValue());
  }

  private boolean between(BigDecimal number) {
    return isAbove(number) && isBelow(number);
  }

  private boolean isAbove(BigDecimal number) {
    if (lowest == null) {
      return true;
    }
    int order = number.compareTo(lowest);
    return lowestIn ? order >= 0 : order > 0;
  }

  private boolean isBelow(BigDecimal number) {
    if (highest == null) {
      return true;
    }
    int order = number.compareTo(highest);
    return highestIn ? order <= 0 : order < 0;
  }

  private static boolean isWhole(BigDecimal number) {
    return number.scale() <= 0 || number.stripTrailingZeros().scale() <= 0;
  }
}
