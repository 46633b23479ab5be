package evenside.api.drawing;

import evenside.api.drawing.Svg.Anchor;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleFunction;

/**
 * One result against its bound: a line for the bound, a tinted bar where it is met, a diamond for
 * the result (solid: met, outline: not met, dotted ring: not judged) and a whisker for the error of
 * the test.
 */
public final class Strip {
  private static final double WIDTH = 340;
  private static final double MIDDLE = 34;
  private static final double EDGE = 8;
  private static final double SMALL_WIDTH = 240;
  private static final double SMALL_HEIGHT = 30;

  private Strip() {}

  /**
   * What is drawn.
   *
   * @param mark how the criterion stands
   * @param value the result
   * @param valueText the result in words, with the unit
   * @param bound the bound
   * @param boundText the bound in words, with comparator and unit
   * @param upward true if it is met above the bound
   * @param error where the true result may lie, low and high
   */
  public record Reading(
      Mark mark,
      double value,
      String valueText,
      double bound,
      String boundText,
      boolean upward,
      Optional<Span> error) {}

  /** From low to high. */
  public record Span(double low, double high) {}

  /** Draws it, with a scale in {@code number}'s form. */
  public static Drawing draw(
      Reading reading, DoubleFunction<String> number, String title, String words) {
    Svg svg = new Svg(WIDTH, 88);
    Scale scale = scale(reading);
    double bound = scale.at(reading.bound());
    double value = scale.at(reading.value());
    if (reading.upward()) {
      svg.rect(bound, MIDDLE - 8, WIDTH - EDGE - bound, 16, Pen.REGION);
    } else {
      svg.rect(EDGE, MIDDLE - 8, bound - EDGE, 16, Pen.REGION);
    }
    axis(svg, scale, number);
    svg.line(bound, MIDDLE - 15, bound, MIDDLE + 15, Pen.BOUND);
    label(svg, bound, MIDDLE - 21, Letters.LABEL, reading.boundText());
    reading.error().ifPresent(span -> whisker(svg, scale, span, MIDDLE));
    shape(svg, reading.mark(), value, MIDDLE);
    label(svg, value, MIDDLE + 28, Letters.STRONG, reading.valueText());
    return svg.described(title, words);
  }

  /**
   * The same without words, for a row of a table that has them. The bound stands in the middle, so
   * that the bounds of all rows make one line.
   */
  public static Drawing small(Reading reading) {
    Svg svg = new Svg(SMALL_WIDTH, SMALL_HEIGHT);
    double reach = reach(reading);
    Scale scale =
        new Scale(reading.bound() - reach, reading.bound() + reach, EDGE, SMALL_WIDTH - EDGE);
    double middle = SMALL_HEIGHT / 2;
    double bound = scale.at(reading.bound());
    double start = reading.upward() ? bound : EDGE;
    double end = reading.upward() ? SMALL_WIDTH - EDGE : bound;
    svg.rect(start, middle - 7, Math.max(0, end - start), 14, Pen.REGION);
    svg.line(EDGE, middle, SMALL_WIDTH - EDGE, middle, Pen.AXIS);
    svg.line(bound, middle - 12, bound, middle + 12, Pen.BOUND);
    reading.error().ifPresent(span -> whisker(svg, scale, span, middle));
    shape(svg, reading.mark(), scale.at(reading.value()), middle);
    return svg.decorative();
  }

  /** Steps without words. */
  public static Drawing smallSteps(int steps, int value, int bound, Mark mark) {
    Svg svg = new Svg(SMALL_WIDTH, SMALL_HEIGHT);
    double middle = SMALL_HEIGHT / 2;
    int below = bound + 1;
    double step = (SMALL_WIDTH / 2 - EDGE) / Math.max(below, steps - below);
    double edge = SMALL_WIDTH / 2;
    double start = edge - step * below;
    svg.rect(start, middle - 7, edge - start, 14, Pen.REGION);
    svg.line(start, middle, start + step * steps, middle, Pen.AXIS);
    for (int i = 0; i < steps; i++) {
      double x = start + step * (i + 0.5);
      svg.line(x, middle - 3, x, middle + 3, Pen.AXIS);
    }
    svg.line(edge, middle - 12, edge, middle + 12, Pen.BOUND);
    shape(svg, mark, start + step * (value + 0.5), middle);
    return svg.decorative();
  }

  /** Steps that have an order but no distances, such as grades of effusion. */
  public static Drawing steps(
      List<String> steps, int value, int bound, Mark mark, String title, String words) {
    Svg svg = new Svg(WIDTH, 62);
    double step = (WIDTH - 2 * EDGE) / steps.size();
    svg.rect(EDGE, 10, step * (bound + 1), 24, Pen.REGION);
    for (int i = 0; i < steps.size(); i++) {
      double middle = EDGE + step * (i + 0.5);
      svg.text(
          middle, 54, Anchor.MIDDLE, i == value ? Letters.STRONG : Letters.SMALL, steps.get(i));
      svg.line(middle, 20, middle, 24, Pen.AXIS);
    }
    svg.line(EDGE, 22, WIDTH - EDGE, 22, Pen.AXIS);
    double edge = EDGE + step * (bound + 1);
    svg.line(edge, 6, edge, 38, Pen.BOUND);
    shape(svg, mark, EDGE + step * (value + 0.5), 22);
    return svg.described(title, words);
  }

  /** How far from the bound anything of it lies, with room. */
  private static double reach(Reading reading) {
    double farthest = Math.abs(reading.value() - reading.bound());
    if (reading.error().isPresent()) {
      Span span = reading.error().get();
      farthest = Math.max(farthest, Math.abs(span.low() - reading.bound()));
      farthest = Math.max(farthest, Math.abs(span.high() - reading.bound()));
    }
    return farthest > 0 ? farthest * 1.15 : 1;
  }

  private static Scale scale(Reading reading) {
    List<Double> all = new ArrayList<>(List.of(reading.value(), reading.bound()));
    reading.error().ifPresent(span -> all.addAll(List.of(span.low(), span.high())));
    return Scale.around(all, EDGE, WIDTH - EDGE);
  }

  private static void axis(Svg svg, Scale scale, DoubleFunction<String> number) {
    svg.line(EDGE, MIDDLE, WIDTH - EDGE, MIDDLE, Pen.AXIS);
    svg.line(EDGE, 70, WIDTH - EDGE, 70, Pen.AXIS);
    for (double tick : scale.ticks(5)) {
      double x = scale.at(tick);
      svg.line(x, 70, x, 73, Pen.AXIS);
      label(svg, x, 84, Letters.SMALL, number.apply(tick));
    }
  }

  private static void whisker(Svg svg, Scale scale, Span span, double y) {
    double low = scale.at(span.low());
    double high = scale.at(span.high());
    svg.line(low, y, high, y, Pen.ERROR);
    svg.line(low, y - 5, low, y + 5, Pen.ERROR);
    svg.line(high, y - 5, high, y + 5, Pen.ERROR);
  }

  private static void shape(Svg svg, Mark mark, double x, double y) {
    switch (mark) {
      case MET -> svg.diamond(x, y, 6.5, Pen.SOLID);
      case NOT_MET -> svg.diamond(x, y, 6.5, Pen.HOLLOW);
      case UNDETERMINED -> svg.circle(x, y, 6, Pen.DOTTED);
    }
  }

  /** A text about a place, moved inside the drawing where it would stick out. */
  private static void label(Svg svg, double x, double y, Letters letters, String text) {
    double half = letters.width(text) / 2;
    if (x - half < 0) {
      svg.text(0, y, Anchor.START, letters, text);
    } else if (x + half > WIDTH) {
      svg.text(WIDTH, y, Anchor.END, letters, text);
    } else {
      svg.text(x, y, Anchor.MIDDLE, letters, text);
    }
  }
}
