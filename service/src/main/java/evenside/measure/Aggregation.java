package evenside.measure;

/** How the valid trials of a test become one score. */
public enum Aggregation {
  BEST,
  MEAN,
  /** The measure has one value and no trials. */
  SINGLE;

  public String code() {
    return switch (this) {
      case BEST -> "best";
      case MEAN -> "mean";
      case SINGLE -> "single";
    };
  }
}
