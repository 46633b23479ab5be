package evenside.readiness;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.document.Document;
import evenside.example.Clinic;
import evenside.example.History;
import evenside.example.TestDay;
import evenside.readiness.recording.Recorded;
import java.net.URISyntaxException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** What is answered follows its published schema, and the published examples are real answers. */
class OutputDocumentsTest {

  @Test
  void publishedAnswers_areWhatTheServiceAnswers(@TempDir Path data) throws URISyntaxException {
    Path examples = Path.of(OutputDocumentsTest.class.getResource("/examples").toURI());
    Map<String, JsonNode> answers = OutputExamples.of(examples, data);
    assertThat(answers).hasSizeGreaterThan(5);
    answers.forEach(
        (name, answer) -> {
          JsonNode published = OutputExamples.file(examples.resolve("valid/" + name + ".json"));
          assertThat(Document.of(published)).as(name).isEqualTo(Document.of(answer));
        });
  }

  @ParameterizedTest
  @ValueSource(longs = {11, 12, 13})
  void everyAnswerToAnyHistory_followsItsSchema(long seed, @TempDir Path folder) {
    LocalDate surgery = LocalDate.parse(Clinic.SURGERY);
    List<TestDay> days = new History(seed).batteries(12, surgery, LocalDate.parse("2026-10-30"));
    try (Office office = Office.in(folder)) {
      ObjectNode person = Clinic.person();
      person.putArray("surgeonLimits").addObject().put("limit", "no-pivoting");
      Recorded kneeCase = office.put("k", person);
      follows("case-record", kneeCase.document());
      days.forEach(day -> follows("battery-record", office.add("k", day).document()));
      for (String set : Clinic.sets()) {
        follows("decision", office.decide("k", Office.request(set)).document());
      }
      ObjectNode request = Clinic.request(person, Clinic.sets(), days.toArray(new TestDay[0]));
      follows("assessment", office.service.desk().assess(request));
      days.forEach(
          day -> {
            JsonNode report = office.service.desk().check("battery", day.json()).toJson();
            follows("check-report", Document.of(report));
          });
    }
  }

  private static void follows(String kind, Document document) {
    assertThat(Clinic.CONTRACT.validate(kind, Clinic.read(document))).as(kind).isEmpty();
  }
}
