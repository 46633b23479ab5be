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

  /**
   * The way with this code.
   *
   * @throws IllegalArgumentException if no way has the code
   */
  public static Aggregation of(String code) {
    for (Aggregation aggregation : values()) {
      if (aggregation.code().equals(code)) {
        return aggregation;
      }
    }
    throw new IllegalArgumentException("aggregation " + code + " is not known");
  }

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
