package evenside.training;

import java.util.function.BinaryOperator;
import org.jspecify.annotations.Nullable;

/** The worse of two statements about one thing; what only one states holds. */
final class Worse {
  private Worse() {}

  static <T extends Comparable<T>> @Nullable T of(@Nullable T a, @Nullable T b) {
    return of(a, b, (x, y) -> x.compareTo(y) >= 0 ? x : y);
  }

  static <T> @Nullable T of(@Nullable T a, @Nullable T b, BinaryOperator<T> worse) {
    if (a == null || b == null) {
      return a == null ? b : a;
    }
    return worse.apply(a, b);
  }
}
