package evenside.api.drawing;

/**
 * The marks of outcomes: a bound, and a point beyond it, short of it, or nowhere to be seen. They
 * differ in shape alone, and words always stand beside them.
 */
public enum Mark {
  MET,
  NOT_MET,
  UNDETERMINED;

  private static final double SIZE = 22;

  /** The mark of an outcome's code; a code that is not known counts as undetermined. */
  public static Mark of(String outcome) {
    return switch (outcome) {
      case "met" -> MET;
      case "not-met" -> NOT_MET;
      default -> UNDETERMINED;
    };
  }

  /** The code of the outcome it stands for. */
  public String code() {
    return switch (this) {
      case MET -> "met";
      case NOT_MET -> "not-met";
      case UNDETERMINED -> "undetermined";
    };
  }

  /** The mark, to stand before the word. */
  public Drawing drawing() {
    Svg svg = new Svg(SIZE, SIZE);
    switch (this) {
      case MET -> svg.line(6, 2, 6, 20, Pen.BOUND).diamond(14.5, 11, 5, Pen.SOLID);
      case NOT_MET -> svg.line(16, 2, 16, 20, Pen.BOUND).diamond(7, 11, 5, Pen.HOLLOW);
      case UNDETERMINED -> svg.line(11, 2, 11, 20, Pen.BOUND).circle(11, 11, 5.5, Pen.DOTTED);
    }
    return svg.decorative();
  }
}
