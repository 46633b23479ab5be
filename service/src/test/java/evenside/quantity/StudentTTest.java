package evenside.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.InputStream;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class StudentTTest {
  /** Quantiles by mpmath 1.2.1 at 40 digits; see the file. */
  @Test
  void quantile_asByAnotherProgram() {
    JsonNode table = golden().path("t_quantiles");
    int checked = 0;
    for (JsonNode row : table.path("rows")) {
      for (int i = 0; i < table.path("p").size(); i++) {
        double level = 2 * table.path("p").path(i).asDouble() - 1;
        double expected = row.path("q").path(i).asDouble();
        assertThat(StudentT.twoSided(level, row.path("df").asInt()))
            .isCloseTo(expected, within(1e-12 * expected));
        checked++;
      }
    }
    assertThat(checked).isEqualTo(165);
  }

  @Test
  void level_outOfRange() {
    assertThatThrownBy(() -> StudentT.twoSided(1, 4)).hasMessageContaining("level 1.0");
    assertThatThrownBy(() -> StudentT.twoSided(0.95, 0)).hasMessageContaining("freedom 0");
  }

  private static JsonNode golden() {
    String name = "/golden/student_t_and_regression.json";
    InputStream file = StudentTTest.class.getResourceAsStream(name);
    return JsonMapper.shared().readTree(file);
  }
}
