package evenside.measure;

/** How the valid trials of a test become one score. */
public enum Aggregation {
  BEST,
  MEAN,
  /** The first that counts. */
  FIRST,
  /** The worst, a cautious reading in use for landing scores. */
  WORST,
  /** The measure has one value and no trials. */
  SINGLE;

  public String code() {
    return switch (this) {
      case BEST -> "best";
      case MEAN -> "mean";
      case FIRST -> "first";
      case WORST -> "worst";
      case SINGLE -> "single";
    };
  }
}
