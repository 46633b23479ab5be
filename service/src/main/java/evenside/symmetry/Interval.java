package evenside.symmetry;

/** Where a ratio of two uncertain numbers may lie. */
public sealed interface Interval {
  /** Between two numbers. */
  record Bounded(double low, double high) implements Interval {}

  /** Not between any two numbers: the denominator cannot be told from zero. */
  record Unbounded(Kind kind) implements Interval {}

  /** What an unbounded set looks like. */
  enum Kind {
    /** Everything but a stretch in the middle. */
    OUTSIDE("outside-a-stretch"),
    /** Every number. */
    EVERYTHING("every-number");

    private final String code;

    Kind(String code) {
      this.code = code;
    }

    public String code() {
      return code;
    }
  }
}
