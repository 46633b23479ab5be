package evenside.limb;

/** The person's own left or right. */
public enum Side {
  LEFT,
  RIGHT;

  public Side opposite() {
    return this == LEFT ? RIGHT : LEFT;
  }

  /** {@code left} or {@code right}, as on the wire. */
  public String code() {
    return this == LEFT ? "left" : "right";
  }

  /**
   * The side with this code.
   *
   * @throws IllegalArgumentException if the code is neither left nor right
   */
  public static Side of(String code) {
    return switch (code) {
      case "left" -> LEFT;
      case "right" -> RIGHT;
      default -> throw new IllegalArgumentException("side " + code + " is neither left nor right");
    };
  }
}
