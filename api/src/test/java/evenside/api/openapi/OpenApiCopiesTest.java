package evenside.api.openapi;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;
import tools.jackson.dataformat.yaml.YAMLMapper;
import tools.jackson.dataformat.yaml.YAMLWriteFeature;

/**
 * The end of {@code openapi.yaml}, from the marker line on, copies published schemas and examples.
 * After a change of those, {@code mvn -pl api -am test -Dtest=OpenApiCopiesTest
 * -Dsurefire.failIfNoSpecifiedTests=false -Dopenapi.write} writes the copies anew.
 */
class OpenApiCopiesTest {
  private static final Path FILE = Repository.path("openapi.yaml");
  private static final String MARKER =
      "    # From here on: copies of the published schemas and examples, written and held equal by a test.\n";

  /** Component name of an example, and the published file it copies. */
  private static final Map<String, String> EXAMPLES =
      Map.of(
          "AdoptedPlan", "schemas/examples/valid/adopted-plan/as-proposed.json",
          "Case", "schemas/examples/valid/case/recreational-skier.json",
          "Battery", "schemas/examples/valid/battery/strength-and-hops.json",
          "Session", "schemas/examples/valid/session/first-run.json",
          "AssessmentRequest",
              "schemas/examples/valid/assessment-request/two-sets-side-by-side.json",
          "CriteriaSet", "schemas/examples/valid/criteria-set/at-least-three-of-four.json",
          "DecisionRequest", "schemas/examples/valid/decision-request/by-milestone.json");

  @BeforeAll
  static void writeIfAsked() throws IOException {
    if (System.getProperty("openapi.write") != null) {
      String text = Files.readString(FILE);
      int end = text.indexOf(MARKER);
      String own = end < 0 ? text : text.substring(0, end);
      Files.writeString(FILE, own + MARKER + copies());
    }
  }

  @Test
  void schemas_areThePublishedOnes() {
    JsonNode document = Repository.openApi();
    JsonNode components = document.at("/components/schemas");
    Map<String, JsonNode> published = PublishedComponents.usedBy(document);
    assertThat(published).containsKeys("Case", "Battery", "Decision", "Problem");
    published.forEach(
        (name, schema) -> assertThat(components.get(name)).as(name).isEqualTo(schema));
  }

  @Test
  void schemas_holdNothingElseAfterTheMarker() throws IOException {
    assertThat(Files.readString(FILE).endsWith(MARKER + copies()))
        .as(
            "openapi.yaml ends with copies of schemas/ as they are now; -Dopenapi.write writes them")
        .isTrue();
  }

  @Test
  void examples_areThePublishedOnes() {
    JsonNode components = Repository.openApi().at("/components/examples");
    assertThat(components.propertyNames()).containsExactlyInAnyOrderElementsOf(EXAMPLES.keySet());
    EXAMPLES.forEach(
        (name, file) ->
            assertThat(components.get(name).get("value"))
                .as(name)
                .isEqualTo(Repository.json(Repository.path(file))));
  }

  private static String copies() {
    Map<String, JsonNode> schemas = PublishedComponents.usedBy(Repository.openApi());
    Map<String, Object> examples = new TreeMap<>();
    EXAMPLES.forEach(
        (name, file) ->
            examples.put(name, Map.of("value", Repository.json(Repository.path(file)))));
    return yaml(schemas, "    ") + "\n  examples:\n" + yaml(examples, "    ");
  }

  private static String yaml(Map<String, ?> content, String indent) {
    ObjectMapper mapper =
        YAMLMapper.builder()
            .disable(YAMLWriteFeature.WRITE_DOC_START_MARKER, YAMLWriteFeature.SPLIT_LINES)
            .enable(
                YAMLWriteFeature.MINIMIZE_QUOTES,
                YAMLWriteFeature.ALWAYS_QUOTE_NUMBERS_AS_STRINGS,
                YAMLWriteFeature.INDENT_ARRAYS_WITH_INDICATOR)
            .build();
    return mapper.writeValueAsString(content).indent(indent.length());
  }
}
