package evenside.symmetry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import evenside.symmetry.SymmetryIndex.Legs;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.EnumSource;

class SymmetryIndexTest {
  private static final double HALF_DIGIT = 0.005 + 1e-9;

  /** Follows from the closed forms; the pairs are invented. */
  @ParameterizedTest
  @EnumSource(mode = EnumSource.Mode.EXCLUDE, names = "NORMALISED")
  void everyIndex_isMonotoneInTheRatio(SymmetryIndex index) {
    double direction = Math.signum(at(index, 99) - at(index, 40));
    for (double operated = 40; operated < 99; operated += 0.5) {
      double step = at(index, operated + 0.5) - at(index, operated);
      assertThat(Math.signum(step)).as("at %s", operated).isEqualTo(direction);
    }
  }

  /** A property of any translation; the thresholds are invented. */
  @ParameterizedTest
  @EnumSource(mode = EnumSource.Mode.EXCLUDE, names = "NORMALISED")
  void everyIndex_translatesThereAndBack(SymmetryIndex index) {
    for (double symmetry = 40; symmetry <= 100; symmetry += 2.5) {
      assertThat(index.limbSymmetryAt(index.atLimbSymmetry(symmetry)))
          .isCloseTo(symmetry, within(1e-7));
      assertThat(at(index, symmetry)).isCloseTo(index.atLimbSymmetry(symmetry), within(1e-8));
    }
  }

  /** Trigonometric identity: the angle is arctan of Robinson's index over 200. */
  @Test
  void robinsonAndAngle_areOneNumber() {
    for (double operated = 30; operated <= 200; operated += 7) {
      double robinson = at(SymmetryIndex.ROBINSON, operated);
      assertThat(at(SymmetryIndex.SYMMETRY_ANGLE, operated))
          .isCloseTo(Math.toDegrees(Math.atan(robinson / 200)) / 0.9, within(1e-7));
      assertThat(at(SymmetryIndex.ASYMMETRY_OVER_SUM, operated))
          .isCloseTo(robinson / 2, within(1e-8));
    }
  }

  /** Follows from the closed forms, each odd in the legs. */
  @ParameterizedTest
  @EnumSource(names = {"ROBINSON", "ASYMMETRY_OVER_SUM", "SYMMETRY_ANGLE", "LOG_QUOTIENT"})
  void indexWithoutReference_changesOnlySignWhenTheLegsChangePlaces(SymmetryIndex index) {
    assertThat(of(index, 20, 25)).isCloseTo(-of(index, 25, 20), within(1e-8));
  }

  /** One pair in every index; sources and marks stand on top of the file. */
  @ParameterizedTest
  @CsvFileSource(resources = "/published/symmetry-indices.csv")
  void publishedFormula_givesItsWorkedPair(
      String code, double operated, double other, double expected) {
    assertThat(of(SymmetryIndex.named(code), operated, other))
        .isCloseTo(expected, within(HALF_DIGIT));
  }

  /** Closed forms worked by hand; see the top of the file. */
  @ParameterizedTest
  @CsvFileSource(resources = "/published/cut-off-translation.csv")
  void cut_off_translates(String code, double limbSymmetry, double expected) {
    double translated = SymmetryIndex.named(code).atLimbSymmetry(limbSymmetry);
    assertThat(translated).isCloseTo(expected, within(HALF_DIGIT));
  }

  /** Form of Gouwanda (2011) and Queen (2020) from memory: equal means, other spread. */
  @Test
  void normalised_dependsOnTheSpreadOfTheTrials() {
    Legs wide = new Legs(20, 25, List.of(18.0, 20.0, 22.0), List.of(23.0, 25.0, 27.0));
    Legs narrow = new Legs(20, 25, List.of(19.0, 20.0, 21.0), List.of(24.0, 25.0, 26.0));
    SymmetryIndex index = SymmetryIndex.NORMALISED;
    assertThat(index.of(wide).getAsDouble()).isCloseTo(37.04, within(HALF_DIGIT));
    assertThat(index.of(narrow).getAsDouble()).isCloseTo(47.62, within(HALF_DIGIT));
    assertThat(index.translates()).isFalse();
    assertThatThrownBy(() -> index.atLimbSymmetry(90)).hasMessageContaining("normalised");
  }

  @Test
  void normalised_withoutSpreadOrTrials() {
    Legs flat = new Legs(20, 20, List.of(20.0), List.of(20.0));
    assertThat(SymmetryIndex.NORMALISED.of(flat)).isEmpty();
    Legs none = new Legs(20, 20, List.of(), List.of());
    assertThat(SymmetryIndex.NORMALISED.of(none)).isEmpty();
  }

  /** Own rule from the definitions: nothing to divide by, no logarithm of zero. */
  @ParameterizedTest
  @EnumSource
  void legAtZero_hasNoIndex(SymmetryIndex index) {
    assertThat(index.of(new Legs(0, 25, List.of(), List.of()))).isEmpty();
    assertThat(index.of(new Legs(25, 0, List.of(), List.of()))).isEmpty();
  }

  @Test
  void code_namesOneIndex() {
    assertThat(Arrays.stream(SymmetryIndex.values()).map(SymmetryIndex::code))
        .doesNotHaveDuplicates()
        .allSatisfy(code -> assertThat(SymmetryIndex.named(code).code()).isEqualTo(code));
    assertThatThrownBy(() -> SymmetryIndex.named("lsi")).hasMessageContaining("lsi");
  }

  private static double at(SymmetryIndex index, double operated) {
    return of(index, operated, 100);
  }

  private static double of(SymmetryIndex index, double operated, double other) {
    return index.of(new Legs(operated, other, List.of(), List.of())).getAsDouble();
  }
}
