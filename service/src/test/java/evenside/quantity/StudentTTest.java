package evenside.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.InputStream;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class StudentTTest {
  /** Quantiles by scipy.stats.t.ppf, scipy 1.10.1. */
  @Test
  void quantile_asByAnotherProgram() {
    JsonNode table = golden().path("t_quantiles");
    int checked = 0;
    for (JsonNode row : table.path("rows")) {
      for (int i = 0; i < table.path("p").size(); i++) {
        double level = 2 * table.path("p").path(i).asDouble() - 1;
        double expected = row.path("q").path(i).asDouble();
        assertThat(StudentT.twoSided(level, row.path("df").asInt()))
            .isCloseTo(expected, within(1e-9 * expected));
        checked++;
      }
    }
    assertThat(checked).isGreaterThan(50);
  }

  @Test
  void level_outOfRange() {
    assertThatThrownBy(() -> StudentT.twoSided(1, 4)).hasMessageContaining("level 1.0");
    assertThatThrownBy(() -> StudentT.twoSided(0.95, 0)).hasMessageContaining("freedom 0");
  }

  private static JsonNode golden() {
    InputStream file = StudentTTest.class.getResourceAsStream("/golden/student-t.json");
    return JsonMapper.shared().readTree(file);
  }
}
