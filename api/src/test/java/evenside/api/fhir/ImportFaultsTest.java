package evenside.api.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.schemas.Contract;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class ImportFaultsTest {
  /** A code that is not published cannot be looked up; one that is never sent misleads. */
  @Test
  void codes_areThePublishedOnesOfFhir() {
    List<String> published =
        Contract.published()
            .catalogue("fault-codes")
            .path("codes")
            .valueStream()
            .filter(entry -> entry.path("layer").asString().equals("fhir"))
            .map(entry -> entry.path("code").asString())
            .toList();
    assertThat(Stream.of(ImportFaults.Code.values()).map(ImportFaults.Code::published).toList())
        .containsExactlyInAnyOrderElementsOf(published);
  }
}
