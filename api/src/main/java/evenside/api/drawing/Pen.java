package evenside.api.drawing;

/**
 * How shapes are drawn. Presentation attributes, not style sheets: a drawing then looks the same on
 * a page, on paper and in a PDF, and a strict content security policy lets it be.
 */
enum Pen {
  /** The operated side, and whatever is met. */
  SOLID("#25456b", "#25456b", 1.5, ""),
  /** The other side, and whatever is not met: outline only. */
  HOLLOW("#ffffff", "#25456b", 2, ""),
  /** What could not be judged. */
  DOTTED("#ffffff", "#25456b", 1.5, "2 2"),
  /** The bound. */
  BOUND("none", "#1b2430", 2, ""),
  /** Where the bound is met. */
  REGION("#dfe6ee", "none", 0, ""),
  /** How far a test may err. */
  ERROR("none", "#25456b", 1.5, ""),
  /** Axes and their marks. */
  AXIS("none", "#7b8794", 1, ""),
  /** A span of time along a bound. */
  SPAN("none", "#8fa3ba", 5, ""),
  /** Lines to read values by. */
  GRID("none", "#e3e8ee", 1, ""),
  /** A course over time. */
  COURSE("none", "#25456b", 1.5, ""),
  /** The other side's course. */
  OTHER_COURSE("none", "#25456b", 1, "4 3"),
  /** A fitted line and what it is run on to. */
  PROJECTION("none", "#1b2430", 1, "1.5 2.5"),
  /** What the operated side must reach. */
  NEEDED("none", "#1b2430", 1.5, "3 2"),
  /** A band about a line. */
  BAND("#dfe6ee", "#b8c4d1", 0.5, "");

  private final String attributes;
  private final boolean fills;

  Pen(String fill, String stroke, double width, String dashes) {
    this.fills = !fill.equals("none");
    this.attributes =
        " fill=\""
            + fill
            + "\" stroke=\""
            + stroke
            + "\""
            + (width > 0 ? " stroke-width=\"" + width + "\"" : "")
            + (dashes.isEmpty() ? "" : " stroke-dasharray=\"" + dashes + "\"");
  }

  String attributes() {
    return attributes;
  }

  boolean fills() {
    return fills;
  }
}
