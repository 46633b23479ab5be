package evenside.api.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.Base64;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Signed examples that the standards print; origin on top of the file. */
class PublishedSignaturesTest {
  @ParameterizedTest(name = "{0}")
  @CsvFileSource(
      resources = "/published/rfc-signatures.csv",
      delimiter = '|',
      maxCharsPerColumn = 9999)
  void signature_published_holds(String source, String key, String jws) {
    String withId = key.substring(0, key.length() - 1) + ",\"kid\":\"k\"}";
    VerificationKey published =
        VerificationKeys.parse(("{\"keys\":[" + withId + "]}").getBytes(StandardCharsets.UTF_8))
            .of("k")
            .orElseThrow();
    assertThat(published.signed(jws(jws))).as(source).isTrue();
    int end = jws.lastIndexOf('.');
    for (int i = 0; i < end; i++) {
      char other = jws.charAt(i) == 'A' ? 'B' : 'A';
      if (jws.charAt(i) != '.' && i > jws.indexOf('.')) {
        String changed = jws.substring(0, i) + other + jws.substring(i + 1);
        assertThat(published.signed(jws(changed))).as("%s, character %d", source, i).isFalse();
      }
    }
  }

  /** Taken apart by hand: their payloads are no claims, and need not be JSON. */
  private static Jws jws(String text) {
    String[] parts = text.split("\\.", -1);
    JsonNode header = JsonMapper.shared().readTree(Base64.getUrlDecoder().decode(parts[0]));
    return new Jws(
        parts[0],
        header,
        JsonMapper.shared().createObjectNode(),
        (parts[0] + "." + parts[1]).getBytes(StandardCharsets.US_ASCII),
        Base64.getUrlDecoder().decode(parts[2]));
  }
}
