package evenside.criteria;

import static evenside.criteria.Truth.MET;
import static evenside.criteria.Truth.NOT_MET;
import static evenside.criteria.Truth.UNDETERMINED;
import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Met is true, not met is false, undetermined is null. */
class TruthTest {

  /** Truth tables of a published standard; citation on top of the file. */
  @ParameterizedTest
  @CsvFileSource(resources = "/published/cql-1.5.3-logical.csv", useHeadersInDisplayName = true)
  void operators_followThePublishedTruthTables(
      String operator, String left, String right, String result) {
    Truth a = truth(left);
    Truth expected = truth(result);
    switch (operator) {
      case "not" -> assertThat(a.not()).isEqualTo(expected);
      case "and" -> {
        assertThat(a.and(truth(right))).isEqualTo(expected);
        assertThat(Truth.all(List.of(a, truth(right)))).isEqualTo(expected);
      }
      case "or" -> {
        assertThat(a.or(truth(right))).isEqualTo(expected);
        assertThat(Truth.any(List.of(a, truth(right)))).isEqualTo(expected);
      }
      default -> throw new AssertionError(operator);
    }
  }

  static Stream<List<Truth>> upToFive() {
    List<List<Truth>> all = new ArrayList<>(List.of(List.of()));
    for (int from = 0; all.get(from).size() < 5; from++) {
      for (Truth truth : Truth.values()) {
        List<Truth> longer = new ArrayList<>(all.get(from));
        longer.add(truth);
        all.add(longer);
      }
    }
    return all.stream();
  }

  /** De Morgan’s laws, for every list of up to five. */
  @ParameterizedTest
  @MethodSource("upToFive")
  void negation_turnsAllIntoAnyAndBack(List<Truth> truths) {
    List<Truth> negated = truths.stream().map(Truth::not).toList();
    assertThat(Truth.all(truths).not()).isEqualTo(Truth.any(negated));
    assertThat(Truth.any(truths).not()).isEqualTo(Truth.all(negated));
  }

  /** At least n is what it is in every world in which the unknown ones have come out. */
  @ParameterizedTest
  @MethodSource("upToFive")
  void atLeast_isKnownWhereEveryOutcomeOfTheUnknownAgrees(List<Truth> truths) {
    List<Long> metByWorld =
        worlds(truths).stream().map(w -> w.stream().filter(t -> t == MET).count()).toList();
    for (int count = 1; count <= truths.size() + 1; count++) {
      int atLeast = count;
      boolean everywhere = metByWorld.stream().allMatch(met -> met >= atLeast);
      boolean nowhere = metByWorld.stream().noneMatch(met -> met >= atLeast);
      Truth expected = everywhere ? MET : nowhere ? NOT_MET : UNDETERMINED;
      assertThat(Truth.atLeast(count, truths)).as("at least %d", count).isEqualTo(expected);
    }
  }

  /** Every way in which the unknown ones may come out. */
  private static List<List<Truth>> worlds(List<Truth> truths) {
    List<List<Truth>> worlds = List.of(List.of());
    for (Truth truth : truths) {
      List<List<Truth>> longer = new ArrayList<>();
      for (List<Truth> world : worlds) {
        for (Truth out : truth == UNDETERMINED ? List.of(MET, NOT_MET) : List.of(truth)) {
          List<Truth> one = new ArrayList<>(world);
          one.add(out);
          longer.add(one);
        }
      }
      worlds = longer;
    }
    return worlds;
  }

  /** By definition, for every list of up to five. */
  @ParameterizedTest
  @MethodSource("upToFive")
  void atLeastOneIsAny_andAtLeastEveryoneIsAll(List<Truth> truths) {
    assertThat(Truth.atLeast(1, truths)).isEqualTo(Truth.any(truths));
    if (!truths.isEmpty()) {
      assertThat(Truth.atLeast(truths.size(), truths)).isEqualTo(Truth.all(truths));
    }
  }

  @Test
  void nothingJoined_isMetForAllAndNotMetForAny() {
    assertThat(Truth.all(List.of())).isEqualTo(MET);
    assertThat(Truth.any(List.of())).isEqualTo(NOT_MET);
  }

  private static Truth truth(String cql) {
    return switch (cql) {
      case "true" -> MET;
      case "false" -> NOT_MET;
      case "null" -> UNDETERMINED;
      default -> throw new AssertionError(cql);
    };
  }
}
