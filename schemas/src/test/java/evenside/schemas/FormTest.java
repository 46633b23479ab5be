package evenside.schemas;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tools.jackson.databind.JsonNode;

/** A form in words is worth something only while the schemas ask for the same. */
class FormTest {
  private static final JsonNode DEFINED =
      Publish.schemas(Corpus.FOLDER)
          .get("https://evenside.example/schemas/1.0/common.schema.json")
          .path("$defs");

  @ParameterizedTest
  @EnumSource
  void form_isThatOfTheSchemas(Form form) {
    List<JsonNode> asked =
        DEFINED
            .valueStream()
            .filter(one -> one.path("pattern").asString("").equals(form.anchored()))
            .toList();
    assertThat(asked).isNotEmpty();
    assertThat(Form.of(form.anchored())).contains(form);
    // An id and a fingerprint are as long as their pattern says.
    assertThat(asked)
        .allMatch(one -> one.path("maxLength").asInt(form.longest()) == form.longest());
  }

  @ParameterizedTest
  @EnumSource
  void text_fitsUpToItsLongest(Form form) {
    String longest =
        switch (form) {
          case IDENTIFIER, CODE -> "a".repeat(64);
          case VERSION -> "1".repeat(16);
          case UUID -> "01234567-89ab-7def-8123-456789abcdef";
          case SHA256 -> "0".repeat(64);
        };
    assertThat(form.fits(longest)).isTrue();
    assertThat(form.fits(longest + "0")).isFalse();
    assertThat(form.fits("")).isFalse();
    assertThat(form.fits(longest.substring(1) + " ")).isFalse();
  }
}
