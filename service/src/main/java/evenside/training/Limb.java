package evenside.training;

/** The leg an exercise is done with. */
public enum Limb {
  LEFT("left"),
  RIGHT("right"),
  BOTH("both");

  private final String code;

  Limb(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }

  /**
   * The value with this code.
   *
   * @throws IllegalArgumentException if there is none
   */
  public static Limb of(String code) {
    for (Limb limb : values()) {
      if (limb.code.equals(code)) {
        return limb;
      }
    }
    throw new IllegalArgumentException("side " + code + " is none of left, right, both");
  }
}
