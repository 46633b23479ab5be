package evenside.api.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.JsonNodeFactory;

/** What a string of FHIR must not hold (R4, section 2.24.0.1; from memory). */
class FhirTextTest {
  @Test
  void text_withControlCharacters_holdsNoneInFhir() {
    byte[] resource =
        Fhir.bytes(
            JsonNodeFactory.instance
                .objectNode()
                .put("description", "a\u0000b\u001b[31mc\td\r\ne \"quoted\" \\u0000 \u00e9"));
    assertThat(JsonMapper.shared().readTree(resource).path("description").asString())
        .isEqualTo("a\uFFFDb\uFFFD[31mc\td\r\ne \"quoted\" \\u0000 \u00e9");
  }
}
