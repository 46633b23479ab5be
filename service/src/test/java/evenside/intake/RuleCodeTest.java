package evenside.intake;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.example.Clinic;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class RuleCodeTest {
  /** A code that is not published cannot be looked up; one that is never sent misleads. */
  @Test
  void codes_areThePublishedRulesAndWarnings() {
    List<String> published =
        Clinic.CONTRACT
            .catalogue("fault-codes")
            .path("codes")
            .valueStream()
            .filter(entry -> Set.of("rule", "warning").contains(entry.path("layer").asString()))
            .map(entry -> entry.path("code").asString())
            .toList();
    assertThat(Stream.of(RuleCode.values()).map(RuleCode::code).toList())
        .doesNotHaveDuplicates()
        .containsExactlyInAnyOrderElementsOf(published);
  }
}
