package evenside.measure;

/** Which number of a measure is meant. */
public enum Aspect {
  /** Operated as a percentage of other. */
  SYMMETRY("symmetry"),
  OPERATED("operated"),
  OTHER("other"),
  /** Operated leg per kilogram of body mass. */
  OPERATED_PER_MASS("operated-per-mass"),
  /** Operated leg as a percentage of standing height. */
  OPERATED_PER_HEIGHT("operated-per-height"),
  /** Operated leg as a percentage of its limb length. */
  OPERATED_PER_LIMB_LENGTH("operated-per-limb-length"),
  /** The other leg as a percentage of its limb length; shown, never compared with a bound. */
  OTHER_PER_LIMB_LENGTH("other-per-limb-length"),
  /** A measure without sides. */
  VALUE("value"),
  /** Operated now as a percentage of the other leg before surgery. */
  PRE_INJURY_CAPACITY("pre-injury-capacity"),
  /** Operated minus other. */
  DIFFERENCE("difference");

  private final String code;

  Aspect(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }

  /**
   * The aspect with this code.
   *
   * @throws IllegalArgumentException if no aspect has the code
   */
  public static Aspect of(String code) {
    for (Aspect aspect : values()) {
      if (aspect.code.equals(code)) {
        return aspect;
      }
    }
    throw new IllegalArgumentException("aspect " + code + " is not known");
  }
}
