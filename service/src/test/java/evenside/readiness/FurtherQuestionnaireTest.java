package evenside.readiness;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.schemas.Contract;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A further questionnaire needs data files and nothing else. The instrument, its measure and the
 * criteria set here are invented.
 */
class FurtherQuestionnaireTest {
  private static final String MEASURE =
      """
      {"code": "stair-confidence", "title": "Stair confidence", "family": "questionnaire",
       "unit": "{score}", "sides": "none", "better": "higher", "symmetry": "none",
       "aggregation": "single", "plausible": {"min": 0, "max": 100},
       "protocol": "Items 1 to 3, each 0 to 4.", "sources": [], "mark": "derived"}""";

  private static final String INSTRUMENT =
      """
      {"schemaVersion": "1.0", "code": "stair-questions", "title": "Stair questions",
       "version": "items-3",
       "items": [{"item": "1", "from": 0, "to": 4, "step": 1},
         {"item": "2", "from": 0, "to": 4, "step": 1, "reversed": true},
         {"item": "3", "values": [0, 2, 8]}],
       "scores": [{"measure": "stair-confidence", "items": ["1", "2", "3"],
         "formula": "percent-of-maximum", "range": {"min": 0, "max": 100}, "better": "higher"}],
       "missingRules": [{"code": "two-of-three", "basis": "product-choice",
         "needed": [{"measure": "stair-confidence", "answered": 2}]}],
       "permission": {"text": "Invented.", "mark": "derived"},
       "sources": ["adams-2012"], "mark": "derived"}""";

  private static final String CRITERIA_SET =
      """
      {"schemaVersion": "1.0", "id": "stairs", "version": "1", "title": "Stairs",
       "milestone": "return-to-running", "designedFor": "An example.", "population": "Nobody.",
       "basis": "clinic-protocol", "source": {"source": "adams-2012"},
       "criteria": {"type": "all", "id": "all-criteria", "title": "All criteria", "of": [
         {"type": "cut-off", "id": "stair-confidence", "title": "Stair confidence",
          "measure": "stair-confidence", "aspect": "value", "comparator": ">=", "bound": 68.8,
          "unit": "{score}", "citation": {"source": "adams-2012"}, "verified": true}]}}""";

  @TempDir private Path folder;

  @BeforeEach
  void publish() throws IOException {
    Contract published = Contract.published();
    for (String path : published.files()) {
      write(path, published.file(path).orElseThrow());
    }
    ObjectNode measures = (ObjectNode) published.catalogue("measures");
    ((ArrayNode) measures.path("measures")).add(OneVisit.json(MEASURE));
    write("catalogue/measures.json", measures.toString());
    write("instruments/stair-questions.json", INSTRUMENT);
    write(
        "criteria/stairs/1.json", CRITERIA_SET.replace("return-to-running", milestone(published)));
  }

  /** Answers 3, 4 (turned: 0) and 8 are 11 of 16, 68.75; the bound 68.8 is its rounded form. */
  @Test
  void answers_are_scored_and_decide() {
    JsonNode finding = finding(assess("3 4 8"));
    assertThat(finding.path("outcome").asString()).isEqualTo("met");
    assertThat(finding.path("value").path("value").asDouble()).isEqualTo(68.75);
    assertThat(finding(assess("2 4 8")).path("outcome").asString()).isEqualTo("not-met");
  }

  /** Without item 3 it is 3 + 4 of 8; with one answer alone there is no score. */
  @Test
  void missing_items_are_handled_by_its_own_rule() {
    assertThat(finding(assess("3 0 -")).path("value").path("value").asDouble()).isEqualTo(87.5);
    JsonNode open = finding(assess("- - 8"));
    assertThat(open.path("outcome").asString()).isEqualTo("undetermined");
    assertThat(open.path("reason").path("text").asString()).contains("1 of 3 answered, 2 needed");
  }

  @Test
  void answers_are_checked() {
    String sheet =
        "{\"instrument\": \"stair-questions\", \"responses\": %s}"
            .formatted(OneVisit.responses("3 4 4"));
    Desk desk = OneVisit.desk(Contract.in(folder));
    assertThat(
            OneVisit.placesAndCodes(
                desk.check("battery", OneVisit.json(OneVisit.battery(22, sheet))).faults()))
        .containsExactly("#/results/questionnaire/0/responses/2/answer answer.not-allowed");
  }

  @Test
  void instrument_that_does_not_fit_the_catalogue_is_refused_at_start() throws IOException {
    write("instruments/stair-questions.json", INSTRUMENT.replace("\"max\": 100", "\"max\": 90"));
    assertThatThrownBy(() -> OneVisit.desk(Contract.in(folder)))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("stair-confidence")
        .hasMessageContaining("another range or direction");
  }

  @Test
  void measure_that_no_instrument_gives_is_refused_at_start() throws IOException {
    Files.delete(folder.resolve("instruments/stair-questions.json"));
    assertThatThrownBy(() -> OneVisit.desk(Contract.in(folder)))
        .hasMessageContaining("no instrument gives the measure stair-confidence");
  }

  @Test
  void instrument_of_an_unknown_measure_is_refused_at_start() throws IOException {
    write("catalogue/measures.json", Contract.published().catalogue("measures").toString());
    assertThatThrownBy(() -> OneVisit.desk(Contract.in(folder)))
        .hasMessageContaining("measure stair-confidence is not in the catalogue");
  }

  private JsonNode assess(String answers) {
    String sheet =
        "{\"instrument\": \"stair-questions\", \"responses\": %s}"
            .formatted(OneVisit.responses(answers));
    JsonNode request = OneVisit.request("stairs/1", OneVisit.battery(22, sheet));
    return OneVisit.json(OneVisit.desk(Contract.in(folder)).assess(request).bytes());
  }

  private static JsonNode finding(JsonNode answer) {
    return answer.path("decisions").path(0).path("finding").path("of").path(0);
  }

  private static String milestone(Contract contract) {
    return contract.catalogue("milestones").path("milestones").path(0).path("code").asString();
  }

  private void write(String path, String text) throws IOException {
    write(path, text.getBytes(java.nio.charset.StandardCharsets.UTF_8));
  }

  private void write(String path, byte[] bytes) throws IOException {
    Path file = folder.resolve(path);
    Files.createDirectories(file.getParent());
    Files.write(file, bytes);
  }
}
