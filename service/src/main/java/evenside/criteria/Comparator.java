package evenside.criteria;

import evenside.quantity.Decimals;

/** How a value is compared with a bound. Published sets differ in this; it is data, never code. */
public enum Comparator {
  ABOVE(">"),
  AT_LEAST(">="),
  BELOW("<"),
  AT_MOST("<=");

  private final String symbol;

  Comparator(String symbol) {
    this.symbol = symbol;
  }

  public String symbol() {
    return symbol;
  }

  /**
   * The comparator with this symbol.
   *
   * @throws IllegalArgumentException if no comparator has the symbol
   */
  public static Comparator of(String symbol) {
    for (Comparator comparator : values()) {
      if (comparator.symbol.equals(symbol)) {
        return comparator;
      }
    }
    throw new IllegalArgumentException("comparator " + symbol + " is not known");
  }

  public boolean test(double value, double bound) {
    return switch (this) {
      case ABOVE -> value > bound;
      case AT_LEAST -> value >= bound;
      case BELOW -> value < bound;
      case AT_MOST -> value <= bound;
    };
  }

  /** True where more of the value is towards meeting the bound. */
  public boolean upward() {
    return this == ABOVE || this == AT_LEAST;
  }

  /** How far the value lies beyond the bound; negative is how far it falls short. */
  public double margin(double value, double bound) {
    return Decimals.exact(upward() ? value - bound : bound - value);
  }

  /** The comparator after both sides were turned over (1/x). */
  public Comparator inverted() {
    return switch (this) {
      case ABOVE -> BELOW;
      case AT_LEAST -> AT_MOST;
      case BELOW -> ABOVE;
      case AT_MOST -> AT_LEAST;
    };
  }

  /** The comparator in words, to stand before a number. */
  public String words() {
    return switch (this) {
      case ABOVE -> "more than";
      case AT_LEAST -> "at least";
      case BELOW -> "less than";
      case AT_MOST -> "at most";
    };
  }
}
