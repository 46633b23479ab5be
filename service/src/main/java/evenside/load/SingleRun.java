package evenside.load;

/**
 * A run against the longest of the 30 days before.
 *
 * <p>Shape: 100 × (run − longest) / longest. Unit: %.
 *
 * <p>Source: bands of Frandsen et al. (2025), BJSM, second-hand: healthy recreational runners.
 *
 * <p>Differs: a published progression after this reconstruction rises by 7 to 33 % from level to
 * level, so this is information and blocks nothing.
 */
public enum SingleRun {
  /** Up to 10 % longer, or no longer. */
  UP_TO_10("up-to-10-percent-longer"),
  /** More than 10, up to 30 % longer. */
  TO_30("10-to-30-percent-longer"),
  /** More than 30, up to 100 % longer. */
  TO_100("30-to-100-percent-longer"),
  /** More than twice as long. */
  OVER_100("over-100-percent-longer");

  private final String code;

  SingleRun(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }

  /** How much longer a run was, in percent. */
  public static Figure change(double metres, double longestBefore) {
    return longestBefore <= 0
        ? Figure.none("%", Figure.ZERO_BEFORE)
        : Figure.of(100 * (metres - longestBefore) / longestBefore, "%");
  }

  /** The band of a change in percent. */
  public static SingleRun band(double percent) {
    if (percent <= 10) {
      return UP_TO_10;
    }
    if (percent <= 30) {
      return TO_30;
    }
    return percent <= 100 ? TO_100 : OVER_100;
  }
}
