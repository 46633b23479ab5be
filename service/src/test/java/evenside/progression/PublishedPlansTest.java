package evenside.progression;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import evenside.intake.CatalogueReader;
import evenside.intake.TrainingCatalogue;
import evenside.schemas.Contract;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** Totals of the published plans, as the evidence on training has them; each test names its own. */
class PublishedPlansTest {
  private static final Contract CONTRACT = Contract.published();

  private static JsonNode plan(String id) {
    return CONTRACT.progressions().stream()
        .filter(one -> one.path("id").asString().equals(id))
        .findFirst()
        .orElseThrow();
  }

  /**
   * T15: totals of the published plan, 700 repetitions at the lower ends, 736 at the upper, in 27
   * sessions (27 printed in the trial).
   */
  @Test
  void t15_nordic_plan() {
    JsonNode plan = plan("nordic-hamstring");
    int sessions = 0;
    int low = 0;
    int high = 0;
    for (JsonNode level : plan.path("levels")) {
      if (level.path("level").asInt() <= 10) {
        int times = level.path("sessions").asInt();
        sessions += times;
        low += times * sum(level.path("repetitions"));
        high +=
            times
                * sum(level.path(level.has("repetitionsMost") ? "repetitionsMost" : "repetitions"));
      }
    }
    assertThat(sessions).isEqualTo(27);
    assertThat(low).isEqualTo(700);
    assertThat(high).isEqualTo(736);
  }

  private static int sum(JsonNode numbers) {
    int sum = 0;
    for (JsonNode number : numbers) {
      sum += number.asInt();
    }
    return sum;
  }

  /** Distances of set A in the evidence's table: 1, 1.333, 1.5, 1.6, 2, 2.5, 3 mi of 1609.344 m. */
  @Test
  void distances_of_set_a() {
    JsonNode set = plan("running-eight-levels");
    double[] miles = {1, 4.0 / 3, 1.5, 1.6, 2, 2.5, 3};
    for (int i = 0; i < miles.length; i++) {
      JsonNode level = set.path("levels").path(i);
      assertThat(level.path("runDistance").path("value").asDouble())
          .isCloseTo(miles[i] * 1609.344, within(0.001));
    }
  }

  /** Minutes of set C in the evidence's table: 18, 49, 57, 45 and 60 a week. */
  @Test
  void minutes_of_set_c() {
    JsonNode set = plan("running-timed-weeks");
    int[] weeks = new int[5];
    for (JsonNode level : set.path("levels")) {
      weeks[(level.path("level").asInt() - 1) / 3] += level.path("runTime").path("value").asInt();
    }
    assertThat(weeks).containsExactly(18, 49, 57, 45, 60);
  }

  @Test
  void levels_of_every_plan_count_from_one() {
    for (Progression set :
        new TrainingCatalogue(CONTRACT, new CatalogueReader(CONTRACT)).progressions().all()) {
      List<Integer> numbers = set.levels().stream().map(Level::number).toList();
      Integer[] expected = new Integer[numbers.size()];
      Arrays.setAll(expected, i -> i + 1);
      assertThat(numbers).as(set.name()).containsExactly(expected);
    }
  }
}
