package evenside.api.drawing;

import evenside.api.drawing.Svg.Anchor;
import java.util.OptionalDouble;
import java.util.stream.DoubleStream;

/** Both sides of one test as bars from zero: the operated one solid, the other one in outline. */
public final class Sides {
  private static final double WIDTH = 340;
  private static final double BAR = 16;
  private static final double FIRST = 22;
  private static final double SECOND = 62;
  private static final double NEEDED_ROW = 16;

  private Sides() {}

  /**
   * One side.
   *
   * @param label which side, in words
   * @param value its number
   * @param text its number in words, with the unit
   */
  public record Side(String label, double value, String text) {}

  /**
   * What the operated side needs.
   *
   * @param value the number
   * @param text the number in words
   */
  public record Needed(double value, String text) {}

  /** Draws them; {@code needed} is marked on the operated side if it is given. */
  public static Drawing draw(
      Side operated, Side other, java.util.Optional<Needed> needed, String title, String words) {
    OptionalDouble most =
        DoubleStream.of(
                operated.value(), other.value(), needed.map(Needed::value).orElse(Double.NaN))
            .filter(Double::isFinite)
            .max();
    double top = Math.max(most.orElse(1), 1e-9);
    Scale scale = new Scale(0, top, 0, WIDTH - 12);
    double below = needed.isPresent() ? NEEDED_ROW : 0;
    double second = SECOND + below;
    Svg svg = new Svg(WIDTH, second + BAR + 6);
    bar(svg, scale, FIRST, operated, Pen.SOLID);
    bar(svg, scale, second, other, Pen.HOLLOW);
    needed.ifPresent(
        mark -> {
          double x = scale.at(Math.max(0, mark.value()));
          svg.line(x, FIRST - 3, x, FIRST + BAR + 6, Pen.NEEDED);
          Anchor anchor = x > WIDTH / 2 ? Anchor.END : Anchor.START;
          svg.text(x, FIRST + BAR + 17, anchor, Letters.SMALL, mark.text());
        });
    svg.line(1, FIRST - 4, 1, second + BAR + 4, Pen.AXIS);
    return svg.described(title, words);
  }

  private static void bar(Svg svg, Scale scale, double y, Side side, Pen pen) {
    svg.text(2, y - 6, Anchor.START, Letters.LABEL, side.label());
    svg.text(WIDTH - 12, y - 6, Anchor.END, Letters.STRONG, side.text());
    svg.rect(1, y, Math.max(1, scale.at(Math.max(0, side.value())) - 1), BAR, pen);
  }
}
