package evenside.criteria;

import evenside.measure.Value;
import org.jspecify.annotations.Nullable;

/**
 * What a criterion asks for.
 *
 * @param comparator how the value is compared, or null where it must be equal
 * @param value the bounding number, grade or fact
 */
public record Bound(@Nullable Comparator comparator, Value value) {
  @Override
  public String toString() {
    return comparator == null ? value.toString() : comparator.symbol() + " " + value;
  }
}
