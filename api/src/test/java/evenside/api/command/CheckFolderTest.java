package evenside.api.command;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.LiveService;
import evenside.api.openapi.Repository;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The check over an integrator's own folder, and the comparison of two versions of the schemas. */
class CheckFolderTest {
  private static final Path EXAMPLES = Repository.path("schemas/examples");

  @TempDir Path folder;

  private Path copy(String example, String to) throws IOException {
    Path file = folder.resolve(to);
    Files.createDirectories(file.getParent());
    return Files.copy(EXAMPLES.resolve(example + ".json"), file);
  }

  private static JsonNode report(Object... arguments) {
    Run run = Run.of(arguments);
    JsonNode report = JsonMapper.shared().readTree(run.out());
    assertThat(LiveService.CONTRACT.validate("folder-report", report)).isEmpty();
    return report;
  }

  /** As published: every valid example passes, every invalid one has exactly its faults. */
  @Test
  void publishedExamples_haveTheirVerdict_kindToldByFolder() throws IOException {
    JsonNode invalid = report("check", "--report", "json", EXAMPLES.resolve("invalid"));
    assertThat(invalid.at("/summary/documents").asInt()).isGreaterThan(100);
    assertThat(invalid.at("/summary/faulty").asInt())
        .isEqualTo(invalid.at("/summary/documents").asInt());
    for (JsonNode document : invalid.path("documents")) {
      Path file = Path.of(document.path("file").asString());
      assertThat(document.path("kind").asString())
          .isEqualTo(String.valueOf(file.getParent().getFileName()));
      Path beside = Path.of(file.toString().replace(".json", ".expected.json"));
      JsonNode expected = JsonMapper.shared().readTree(beside);
      for (JsonNode fault : expected) {
        assertThat(document.path("faults").valueStream())
            .as(file.toString())
            .anyMatch(
                found ->
                    found.path("pointer").equals(fault.path("pointer"))
                        && found.path("code").equals(fault.path("code")));
      }
    }
  }

  /** In a pipeline, a wrong folder must not look like one without faults. */
  @Test
  void folderWithoutDocuments_isNoSuccess() {
    Run run = Run.of("check", folder);
    assertThat(run.exitCode()).isEqualTo(Main.FAILED);
    assertThat(run.err()).contains("there is no .json file in the folder");
  }

  @Test
  void folderNamedLikeAKind_tellsTheKind_theNearestFirst() throws IOException {
    // By its members alone nobody could tell it.
    Files.createDirectories(folder.resolve("case/decision-request"));
    Files.writeString(folder.resolve("case/decision-request/a.json"), "{}");
    Files.writeString(folder.resolve("case/b.json"), "{}");
    Files.writeString(folder.resolve("c.json"), "{}");
    JsonNode documents = report("check", "--report", "json", folder).path("documents");
    assertThat(documents.valueStream().map(one -> one.path("kind").asString("")))
        .containsExactly("", "case", "decision-request");
    assertThat(documents.valueStream().map(one -> one.path("verdict").asString()))
        .containsExactly("unknown-kind", "faulty", "faulty");
  }

  /** A folder above the one that was named says nothing. */
  @Test
  void folderAboveTheNamedOne_doesNotTellTheKind() throws IOException {
    copy("valid/case/minimal", "battery/mine/x.json");
    JsonNode report = report("check", "--report", "json", folder.resolve("battery/mine"));
    assertThat(report.at("/documents/0/kind").asString()).isEqualTo("case");
    assertThat(report.at("/documents/0/verdict").asString()).isEqualTo("valid");
  }

  @Test
  void reportForPeople_namesPlaceLimitAndMeaning_andSumsUp() throws IOException {
    copy("invalid/battery/hop-in-metres", "day/a.json");
    copy("valid/case/minimal", "day/b.json");
    Files.writeString(folder.resolve("day/c.json"), "{\"a\": 1,}");
    Run run = Run.of("check", folder);
    assertThat(run.exitCode()).isEqualTo(Main.FAULTY);
    assertThat(run.out())
        .contains("a.json: battery, ", "#/results/hopDistance/", "  unit.wrong  ", " [cm]")
        .contains("b.json: case, valid", "c.json: not JSON", "line 1, column")
        .contains("3 documents: 1 valid, 1 faulty, 1 not JSON, 0 of unknown kind")
        .contains("What the codes mean:", "x unit.wrong  ");
  }

  @Test
  void exitCode_isThatOfTheWorst() throws IOException {
    copy("valid/case/minimal", "a.json");
    assertThat(Run.of("check", "--report", "json", folder).exitCode()).isEqualTo(Main.OK);
    copy("invalid/battery/hop-in-metres", "b.json");
    assertThat(Run.of("check", "--report", "json", folder).exitCode()).isEqualTo(Main.FAULTY);
    Files.writeString(folder.resolve("c.json"), "[]");
    assertThat(Run.of("check", "--report", "json", folder).exitCode()).isEqualTo(Main.FAILED);
  }

  @Test
  void compare_ofTheSameVersion_findsNothing_andOfMadeUpOnesWhatBreaks() {
    Path bundles = Repository.path("schemas/bundles/1.0");
    Run same = Run.of("compare", bundles, bundles, "--samples", EXAMPLES);
    assertThat(same.exitCode()).as(same.err()).isEqualTo(Main.OK);
    assertThat(same.out()).startsWith("differences: 0");
    Path madeUp = Repository.path("schemas/src/test/resources/compare");
    Run run = Run.of("compare", madeUp.resolve("1.0"), madeUp.resolve("1.1"));
    assertThat(run.exitCode()).isEqualTo(Main.FAULTY);
    assertThat(run.out())
        .contains("BREAK  visit /note: the member is gone")
        .contains("differences: 6, of these breaking: 3");
    Run none = Run.of("compare", folder, bundles);
    assertThat(none.exitCode()).isEqualTo(Main.FAILED);
    assertThat(none.err()).startsWith("evenside: there is no bundle");
  }
}
