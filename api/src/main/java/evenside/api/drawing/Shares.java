package evenside.api.drawing;

/** A share of people with its interval, on a scale from 0 to 100 %. */
public final class Shares {
  private static final double WIDTH = 240;
  private static final double HEIGHT = 30;
  private static final Scale SCALE = new Scale(0, 100, 8, WIDTH - 8);

  private Shares() {}

  /** Draws a share in percent with its lower and upper end; words stand beside it. */
  public static Drawing draw(double percent, double low, double high) {
    double middle = HEIGHT / 2;
    Svg svg = new Svg(WIDTH, HEIGHT);
    svg.rect(SCALE.at(0), middle - 7, SCALE.at(100) - SCALE.at(0), 14, Pen.BAND);
    for (double tick : SCALE.ticks(4)) {
      svg.line(SCALE.at(tick), middle - 9, SCALE.at(tick), middle + 9, Pen.AXIS);
    }
    svg.line(SCALE.at(low), middle, SCALE.at(high), middle, Pen.ERROR);
    svg.line(SCALE.at(low), middle - 5, SCALE.at(low), middle + 5, Pen.ERROR);
    svg.line(SCALE.at(high), middle - 5, SCALE.at(high), middle + 5, Pen.ERROR);
    return svg.diamond(SCALE.at(percent), middle, 5.5, Pen.SOLID).decorative();
  }
}
