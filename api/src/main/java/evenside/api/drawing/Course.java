package evenside.api.drawing;

import evenside.api.drawing.Svg.Anchor;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleFunction;

/**
 * A number over the weeks since surgery: points and their course, the published error about each
 * point, a second course in dashes, the bounds of criteria, and the fitted line with its band at
 * the newest test.
 */
public final class Course {
  private static final double WIDTH = 470;
  private static final double HEIGHT = 264;
  private static final double LEFT = 44;
  private static final double RIGHT = 462;
  private static final double TOP = 36;
  private static final double BOTTOM = 218;

  private Course() {}

  /** One test. */
  public record Point(double week, double value) {}

  /**
   * A named course.
   *
   * @param name what it is
   * @param points in order of time, at least one
   */
  public record Line(String name, List<Point> points) {
    /** Keeps its own copy. */
    public Line {
      points = List.copyOf(points);
    }
  }

  /** A bound of a criterion and its words. */
  public record Bound(double value, String text) {}

  /**
   * The fitted line.
   *
   * @param from its first point
   * @param to the point at the newest test
   * @param low lower end of where one test may lie there
   * @param high upper end
   */
  public record Fit(Point from, Point to, double low, double high) {}

  /**
   * Where the line would reach a bound, if it went on.
   *
   * @param reached week and bound
   * @param earliest first week of the interval
   * @param latest last week of it, or the last to which the line may be run on
   */
  public record Projection(Point reached, double earliest, double latest) {}

  /**
   * Everything drawn.
   *
   * @param main the course in question
   * @param beside a course to compare with
   * @param error half of the interval about each point, 0 for none
   * @param bounds bounds of criteria
   * @param fit the fitted line, if one was fitted
   * @param projections where it would reach bounds
   */
  public record Story(
      Line main,
      Optional<Line> beside,
      double error,
      List<Bound> bounds,
      Optional<Fit> fit,
      List<Projection> projections) {
    /** Keeps its own copy. */
    public Story {
      bounds = List.copyOf(bounds);
      projections = List.copyOf(projections);
    }
  }

  /** Draws it. */
  public static Drawing draw(
      Story story, DoubleFunction<String> number, String axis, String title, String words) {
    Scale weeks = Scale.around(weeks(story), LEFT + 12, RIGHT - 12);
    Scale values = Scale.around(values(story), BOTTOM, TOP);
    Svg svg = new Svg(WIDTH, HEIGHT);
    axes(svg, weeks, values, number, axis);
    story.bounds().forEach(bound -> bound(svg, values, bound));
    story.fit().ifPresent(fit -> fit(svg, weeks, values, fit));
    story.projections().forEach(one -> projection(svg, weeks, values, story.fit(), one));
    story.beside().ifPresent(line -> beside(svg, weeks, values, line));
    main(svg, weeks, values, story);
    names(svg, story);
    return svg.described(title, words);
  }

  private static List<Double> weeks(Story story) {
    List<Double> all = new ArrayList<>();
    story.main().points().forEach(point -> all.add(point.week()));
    story.beside().ifPresent(line -> line.points().forEach(point -> all.add(point.week())));
    story.projections().forEach(one -> all.addAll(List.of(one.earliest(), one.latest())));
    return all;
  }

  private static List<Double> values(Story story) {
    List<Double> all = new ArrayList<>();
    for (Point point : story.main().points()) {
      all.add(point.value() - story.error());
      all.add(point.value() + story.error());
    }
    story.beside().ifPresent(line -> line.points().forEach(point -> all.add(point.value())));
    story.bounds().forEach(bound -> all.add(bound.value()));
    story.fit().ifPresent(fit -> all.addAll(List.of(fit.low(), fit.high())));
    return all;
  }

  private static void axes(
      Svg svg, Scale weeks, Scale values, DoubleFunction<String> number, String axis) {
    for (double tick : values.ticks(5)) {
      double y = values.at(tick);
      svg.line(LEFT, y, RIGHT, y, Pen.GRID);
      svg.text(LEFT - 6, y + 4, Anchor.END, Letters.SMALL, number.apply(tick));
    }
    svg.line(LEFT, BOTTOM, RIGHT, BOTTOM, Pen.AXIS);
    for (double tick : weeks.ticks(8)) {
      double x = weeks.at(tick);
      svg.line(x, BOTTOM, x, BOTTOM + 4, Pen.AXIS);
      svg.text(x, BOTTOM + 17, Anchor.MIDDLE, Letters.SMALL, number.apply(tick));
    }
    svg.text((LEFT + RIGHT) / 2, BOTTOM + 36, Anchor.MIDDLE, Letters.SMALL, axis);
  }

  private static void bound(Svg svg, Scale values, Bound bound) {
    double y = values.at(bound.value());
    svg.line(LEFT, y, RIGHT, y, Pen.BOUND);
    svg.text(LEFT + 4, y - 5, Anchor.START, Letters.STRONG, bound.text());
  }

  private static void fit(Svg svg, Scale weeks, Scale values, Fit fit) {
    double x = weeks.at(fit.to().week());
    double high = values.at(fit.high());
    svg.rect(x - 7, high, 14, values.at(fit.low()) - high, Pen.BAND);
    double from = weeks.at(fit.from().week());
    svg.line(from, values.at(fit.from().value()), x, values.at(fit.to().value()), Pen.PROJECTION);
  }

  private static void projection(
      Svg svg, Scale weeks, Scale values, Optional<Fit> fit, Projection projection) {
    double x = weeks.at(projection.reached().week());
    double y = values.at(projection.reached().value());
    fit.ifPresent(
        line ->
            svg.line(
                weeks.at(line.to().week()), values.at(line.to().value()), x, y, Pen.PROJECTION));
    double from = weeks.at(projection.earliest());
    double to = weeks.at(projection.latest());
    svg.line(from, y, to, y, Pen.SPAN);
    svg.circle(x, y, 4.5, Pen.DOTTED);
  }

  private static void beside(Svg svg, Scale weeks, Scale values, Line line) {
    course(svg, weeks, values, line.points(), Pen.OTHER_COURSE);
    line.points()
        .forEach(
            point -> svg.circle(weeks.at(point.week()), values.at(point.value()), 3.5, Pen.HOLLOW));
  }

  private static void main(Svg svg, Scale weeks, Scale values, Story story) {
    List<Point> points = story.main().points();
    course(svg, weeks, values, points, Pen.COURSE);
    for (Point point : points) {
      double x = weeks.at(point.week());
      if (story.error() > 0) {
        double high = values.at(point.value() + story.error());
        double low = values.at(point.value() - story.error());
        svg.line(x, high, x, low, Pen.ERROR);
        svg.line(x - 4, high, x + 4, high, Pen.ERROR);
        svg.line(x - 4, low, x + 4, low, Pen.ERROR);
      }
      svg.diamond(x, values.at(point.value()), 5, Pen.SOLID);
    }
  }

  /** Names the courses above the drawing, where nothing crosses them. */
  private static void names(Svg svg, Story story) {
    String main = story.main().name();
    svg.diamond(LEFT + 6, 14, 5, Pen.SOLID);
    svg.text(LEFT + 16, 18, Anchor.START, Letters.LABEL, main);
    story
        .beside()
        .ifPresent(
            line -> {
              double x = LEFT + 48 + Letters.LABEL.width(main);
              svg.circle(x, 14, 3.5, Pen.HOLLOW);
              svg.text(x + 9, 18, Anchor.START, Letters.LABEL, line.name());
            });
  }

  private static void course(Svg svg, Scale weeks, Scale values, List<Point> points, Pen pen) {
    double[][] path = new double[points.size()][];
    for (int i = 0; i < path.length; i++) {
      path[i] = new double[] {weeks.at(points.get(i).week()), values.at(points.get(i).value())};
    }
    svg.path(path, pen);
  }
}
