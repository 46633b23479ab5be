package evenside.api.drawing;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

class DrawingTest {
  private static final Pattern RECT =
      Pattern.compile("<rect x=\"([0-9.]+)\" y=\"[0-9.]+\" width=\"([0-9.]+)\"");

  @Test
  void marks_differInShapeAlone() {
    assertThat(Mark.MET.drawing().svg()).doesNotContain("circle");
    assertThat(Mark.UNDETERMINED.drawing().svg()).contains("circle", "stroke-dasharray");
    String met = withoutColours(Mark.MET.drawing().svg());
    String notMet = withoutColours(Mark.NOT_MET.drawing().svg());
    assertThat(met).isNotEqualTo(notMet);
  }

  @Test
  void outcome_unknown_countsAsUndetermined() {
    assertThat(Mark.of("something-new")).isEqualTo(Mark.UNDETERMINED);
  }

  @Test
  void strip_boundUpward_isMetToItsRight() {
    assertThat(region(true)[0] + region(true)[1]).isGreaterThan(300);
    assertThat(region(false)[0]).isLessThan(20);
  }

  @Test
  void strip_words_areTheTextAlternative() {
    String svg = strip(true, "a < b & \"c\"").svg();
    assertThat(svg)
        .contains("role=\"img\"", "<title>T</title>", "<desc>a &lt; b &amp; &quot;c&quot;</desc>");
  }

  @Test
  void sides_bars_areAsLongAsTheirNumbers() {
    Drawing drawing =
        Sides.draw(
            new Sides.Side("operated", 50, "50"),
            new Sides.Side("other", 100, "100"),
            Optional.empty(),
            "T",
            "W");
    Matcher bars = RECT.matcher(drawing.svg());
    assertThat(bars.find()).isTrue();
    double operated = Double.parseDouble(bars.group(2)) + 1;
    assertThat(bars.find()).isTrue();
    double other = Double.parseDouble(bars.group(2)) + 1;
    assertThat(operated / other).isBetween(0.499, 0.501);
  }

  @Test
  void scale_ticks_areRoundAndInside() {
    assertThat(new Scale(62, 104, 0, 1).ticks(5)).containsExactly(70.0, 80.0, 90.0, 100.0);
    assertThat(new Scale(0, 1, 0, 1).ticks(5)).hasSize(6);
  }

  @Test
  void course_projection_reachesItsBound() {
    Course.Story story =
        new Course.Story(
            new Course.Line(
                "symmetry", List.of(new Course.Point(12, 58), new Course.Point(32, 84))),
            Optional.empty(),
            0,
            List.of(new Course.Bound(90, "≥ 90 %")),
            Optional.of(new Course.Fit(new Course.Point(12, 60), new Course.Point(32, 86), 77, 95)),
            List.of(new Course.Projection(new Course.Point(35, 90), 28, 38)));
    String svg = Course.draw(story, Double::toString, "weeks", "T", "W").svg();
    Matcher bound = Pattern.compile("y1=\"([0-9.]+)\" x2=\"462\"[^>]*#1b2430").matcher(svg);
    Matcher ring = Pattern.compile("cy=\"([0-9.]+)\" r=\"4.5\"").matcher(svg);
    assertThat(bound.find()).isTrue();
    assertThat(ring.find()).isTrue();
    assertThat(ring.group(1)).isEqualTo(bound.group(1));
  }

  private static double[] region(boolean upward) {
    Matcher rect = RECT.matcher(strip(upward, "W").svg());
    assertThat(rect.find()).isTrue();
    return new double[] {Double.parseDouble(rect.group(1)), Double.parseDouble(rect.group(2))};
  }

  private static Drawing strip(boolean upward, String words) {
    return Strip.draw(
        new Strip.Reading(
            Mark.NOT_MET, 85, "85 %", 90, "90 %", upward, Optional.of(new Strip.Span(75, 95))),
        Double::toString,
        "T",
        words);
  }

  private static String withoutColours(String svg) {
    return svg.replaceAll("(fill|stroke)=\"#[0-9a-f]+\"", "");
  }
}
