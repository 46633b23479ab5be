package evenside.progression;

import evenside.criteria.Truth;
import evenside.quantity.Quantity;

/**
 * What is known of an input. Numbers are ranges, so that what follows for certain from half a
 * record is used: with a usual pain of at least 0, a morning of 1 is at most 1 above it.
 */
public sealed interface Known {
  /** Nothing is known. */
  Known NOTHING = new Range(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);

  /** A number between two bounds, both inclusive; exact where they are equal. */
  record Range(double low, double high) implements Known {
    public Range {
      if (!(low <= high)) {
        throw new IllegalArgumentException("range from " + low + " to " + high);
      }
    }

    public boolean isExact() {
      return low == high;
    }

    @Override
    public String toString() {
      return isExact()
          ? Quantity.text(low)
          : (low == Double.NEGATIVE_INFINITY ? "" : Quantity.text(low))
              + ".."
              + (high == Double.POSITIVE_INFINITY ? "" : Quantity.text(high));
    }
  }

  /** A yes or a no. */
  record Flag(boolean holds) implements Known {
    @Override
    public String toString() {
      return holds ? "yes" : "no";
    }
  }

  /** One of a few words. */
  record Choice(String word) implements Known {
    @Override
    public String toString() {
      return word;
    }
  }

  static Known number(double value) {
    return new Range(value, value);
  }

  static Known flag(boolean holds) {
    return new Flag(holds);
  }

  /** How an input is compared with a value. */
  enum Comparison {
    EQUAL("="),
    OTHER("!="),
    ABOVE(">"),
    AT_LEAST(">="),
    BELOW("<"),
    AT_MOST("<=");

    private final String symbol;

    Comparison(String symbol) {
      this.symbol = symbol;
    }

    public String symbol() {
      return symbol;
    }

    /**
     * The comparison with this symbol.
     *
     * @throws IllegalArgumentException if there is none
     */
    public static Comparison of(String symbol) {
      for (Comparison comparison : values()) {
        if (comparison.symbol.equals(symbol)) {
          return comparison;
        }
      }
      throw new IllegalArgumentException("comparator " + symbol + " is not known");
    }

    /** Holds for every number of the range, for none, or for some. */
    Truth test(Range seen, double bound) {
      return switch (this) {
        case EQUAL -> equal(seen, bound);
        case OTHER -> equal(seen, bound).not();
        case ABOVE -> either(seen.low > bound, seen.high > bound);
        case AT_LEAST -> either(seen.low >= bound, seen.high >= bound);
        case BELOW -> either(seen.high < bound, seen.low < bound);
        case AT_MOST -> either(seen.high <= bound, seen.low <= bound);
      };
    }

    private static Truth equal(Range seen, double bound) {
      return either(
          seen.low == bound && seen.high == bound, seen.low <= bound && bound <= seen.high);
    }

    private static Truth either(boolean always, boolean sometimes) {
      if (always) {
        return Truth.MET;
      }
      return sometimes ? Truth.UNDETERMINED : Truth.NOT_MET;
    }
  }
}
