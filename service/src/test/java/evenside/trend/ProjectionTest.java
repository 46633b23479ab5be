package evenside.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import evenside.trend.Projection.Reached;
import evenside.trend.Projection.Reason;
import evenside.trend.Projection.Refused;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Where no other origin is given, courses and bounds are invented to exercise a refusal. */
class ProjectionTest {
  private static final double LEVEL = 0.95;

  /** Invented course: weeks after surgery and symmetry in percent. */
  private static final List<Reading> RECOVERY =
      Golden.readings(Golden.read("student_t_and_regression").path("recovery_line"));

  private static Projection of(List<Reading> readings, double bound) {
    return Projection.of(readings, bound, true, LEVEL, 0);
  }

  private static Reason refusal(Projection projection) {
    return ((Refused) projection).reason();
  }

  /** The bands' crossings found by root search: scipy 1.17.1, optimize.brentq. */
  @Test
  void interval_isWhereTheBandsCrossTheBound() {
    Reached reached = (Reached) of(RECOVERY, 95);

    assertThat(reached.weeks()).isCloseTo(40.67691063, within(1e-7));
    assertThat(reached.line().low()).isCloseTo(36.99078941, within(1e-6));
    assertThat(reached.line().high()).isCloseTo(46.25605934, within(1e-6));
    assertThat(reached.singleTest().low()).isCloseTo(34.47564282, within(1e-6));
    assertThat(reached.singleTest().high()).isCloseTo(48.77120593, within(1e-6));
    assertThat(reached.limit()).isEqualTo(12 + 1.25 * 27);
  }

  /** The definition of inverse regression; the bounds are invented. */
  @ParameterizedTest
  @ValueSource(doubles = {93, 94, 95, 97, 100})
  void bound_liesOnTheBandsAtTheEndsOfItsInterval(double bound) {
    Line line = Line.through(RECOVERY);
    Reached reached = (Reached) of(RECOVERY, bound);

    assertThat(line.at(reached.weeks())).isCloseTo(bound, within(1e-9));
    assertThat(line.confidence(reached.line().low(), LEVEL).high()).isCloseTo(bound, within(1e-9));
    assertThat(line.confidence(reached.line().high(), LEVEL).low()).isCloseTo(bound, within(1e-9));
    assertThat(line.prediction(reached.singleTest().low(), LEVEL).high())
        .isCloseTo(bound, within(1e-9));
    assertThat(line.prediction(reached.singleTest().high(), LEVEL).low())
        .isCloseTo(bound, within(1e-9));
  }

  @Test
  void lowerIsBetter_isTheSamePictureUpsideDown() {
    List<Reading> falling = RECOVERY.stream().map(r -> new Reading(r.weeks(), -r.value())).toList();

    Reached upright = (Reached) of(RECOVERY, 95);
    Reached upsideDown = (Reached) Projection.of(falling, -95, false, LEVEL, 0);

    assertThat(upsideDown.weeks()).isCloseTo(upright.weeks(), within(1e-9));
    assertThat(upsideDown.line().high()).isCloseTo(upright.line().high(), within(1e-9));
  }

  @Test
  void threeTests_areTooFew() {
    assertThat(refusal(of(RECOVERY.subList(0, 3), 90))).isEqualTo(Reason.TOO_FEW_READINGS);
    assertThat(of(RECOVERY.subList(0, 4), 85)).isInstanceOf(Reached.class);
  }

  @Test
  void fourTestsOfOneDay_haveNoSpan() {
    Reading reading = new Reading(12, 80);
    assertThat(refusal(of(List.of(reading, reading, reading, reading), 90)))
        .isEqualTo(Reason.NO_SPAN);
  }

  @Test
  void course_awayFromTheBound_isNoImprovement() {
    assertThat(refusal(Projection.of(RECOVERY, 50, false, LEVEL, 0)))
        .isEqualTo(Reason.NO_IMPROVEMENT);
  }

  @Test
  void course_thatCouldBeLevel_isUncertain() {
    List<Reading> scattered =
        List.of(new Reading(10, 80), new Reading(14, 70), new Reading(18, 85), new Reading(22, 78));
    assertThat(refusal(of(scattered, 81))).isEqualTo(Reason.SLOPE_UNCERTAIN);
  }

  /** 1.25 times the observed span: 12 + 1.25 × 27 = 45.75 weeks, where the line is at 101.07. */
  @Test
  void bound_beyondOneAndAQuarterOfTheSpan_isRefused() {
    assertThat(of(RECOVERY, 101)).isInstanceOf(Reached.class);
    assertThat(refusal(of(RECOVERY, 101.1))).isEqualTo(Reason.BEYOND_SPAN);
  }

  @Test
  void line_thatPassedTheBoundBeforeTheNewestTest_saysSo() {
    assertThat(refusal(of(RECOVERY, 92))).isEqualTo(Reason.LINE_PAST_BOUND);
  }

  @Test
  void readingsOnOneLineByLuck_areHeldToTheErrorOfTheTest() {
    List<Reading> straight = new ArrayList<>();
    for (int week = 12; week <= 28; week += 4) {
      straight.add(new Reading(week, 50 + 1.5 * week));
    }
    double halfWidth = 1.96 * 3.49;

    Reached naive = (Reached) of(straight, 93.5);
    Reached honest = (Reached) Projection.of(straight, 93.5, true, LEVEL, halfWidth);

    assertThat(naive.line().high() - naive.line().low()).isLessThan(1e-6);
    assertThat(honest.weeks()).isEqualTo(naive.weeks());
    assertThat(honest.line().high() - honest.line().low()).isGreaterThan(6);
  }
}
