package evenside.criteria;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.example.Clinic;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** No bound gets into a published set, or out of it, without its row among the published ones. */
class BoundsCoverTest {
  @Test
  void everyVerifiedBound_hasItsPublishedRow() throws IOException {
    List<String> rows = rows();
    List<String> bounds =
        Clinic.CONTRACT.criteriaSets().stream().flatMap(BoundsCoverTest::bounds).toList();
    assertThat(bounds).isSubsetOf(rows);
    assertThat(rows).hasSize(bounds.size());
  }

  private static Stream<String> bounds(JsonNode set) {
    String name = set.path("id").asString() + "/" + set.path("version").asString();
    return Stream.of(set.path("criteria").path("of"), set.path("informative"))
        .flatMap(JsonNode::valueStream)
        .filter(criterion -> criterion.has("bound") && criterion.path("verified").asBoolean())
        .map(criterion -> name + "," + criterion.path("id").asString());
  }

  private static List<String> rows() throws IOException {
    try (InputStream in =
        BoundsCoverTest.class.getResourceAsStream("/published/criteria-bounds.csv")) {
      String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      return text.lines()
          .filter(line -> !line.startsWith("#") && !line.startsWith("set,"))
          .map(line -> line.split(",")[0] + "," + line.split(",")[1])
          .toList();
    }
  }
}
