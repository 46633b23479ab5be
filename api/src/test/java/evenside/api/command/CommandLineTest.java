package evenside.api.command;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.LiveService;
import evenside.api.openapi.Repository;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The commands, run as the jar runs them, without network and store. */
class CommandLineTest {
  private static final Path EXAMPLES = Repository.path("schemas/examples");

  @TempDir Path folder;

  @Test
  void help_namesEveryCommand_eachKnowingItself() {
    CommandLine all = Main.commandLine();
    assertThat(all.getSubcommands().keySet())
        .containsExactly(
            "serve",
            "check",
            "compare",
            "assess",
            "verify",
            "keys",
            "ledger-key",
            "audit",
            "backup",
            "restore",
            "move",
            "import");
    assertThat(Run.of("--help").out()).contains(all.getSubcommands().keySet());
    all.getSubcommands()
        .forEach(
            (name, command) -> {
              assertThat(command.getCommandName()).isEqualTo(name);
              assertThat(Run.of(name, "--help").out()).contains("evenside " + name);
              command
                  .getSubcommands()
                  .forEach(
                      (part, described) -> {
                        Run help = Run.of(name, part, "--help");
                        assertThat(help.exitCode()).isEqualTo(Main.OK);
                        assertThat(help.out()).contains("evenside " + name + " " + part);
                        assertThat(described.getCommandSpec().options())
                            .as(name + " " + part)
                            .allSatisfy(option -> assertThat(option.description()).isNotEmpty());
                      });
            });
    assertThat(Run.of("serve", "--help").out()).contains("--database-url");
  }

  @Test
  void commandThatIsNone_isNamed_withTheHelpOfAll() {
    Run run = Run.of("sreve");
    assertThat(run.exitCode()).isEqualTo(Main.FAILED);
    assertThat(run.err()).contains("sreve", "serve");
  }

  static Stream<Path> examples(String validity) throws IOException {
    try (Stream<Path> files = Files.walk(EXAMPLES.resolve(validity))) {
      return files
          .filter(f -> f.toString().endsWith(".json") && !f.toString().endsWith(".expected.json"))
          .sorted()
          .toList()
          .stream();
    }
  }

  static Stream<Path> validExamples() throws IOException {
    // These two ask for more than any service knows: by their schema they are valid.
    return examples("valid")
        .filter(f -> !f.toString().endsWith("everything.json"))
        // These are told by their name only.
        .filter(f -> !f.getParent().endsWith("what-if-request"))
        .filter(f -> !f.getParent().endsWith("replay-request"));
  }

  @ParameterizedTest
  @MethodSource("validExamples")
  void check_ofAValidExample_tellsItsKindAndPasses(Path file) {
    Run run = Run.of("check", file);
    assertThat(run.exitCode()).as(run.out() + run.err()).isEqualTo(Main.OK);
    assertThat(run.out()).startsWith(file + ": " + file.getParent().getFileName() + ", valid");
  }

  static Stream<Path> invalidExamples() throws IOException {
    return examples("invalid");
  }

  @ParameterizedTest
  @MethodSource("invalidExamples")
  void check_ofAnInvalidExample_namesItsFaults(Path file) {
    Run run = Run.of("check", "--kind", file.getParent().getFileName(), file);
    assertThat(run.exitCode()).as(run.out() + run.err()).isEqualTo(Main.FAULTY);
    JsonNode expected =
        JsonMapper.shared().readTree(Path.of(file.toString().replace(".json", ".expected.json")));
    for (JsonNode fault : expected) {
      String line = fault.path("pointer").asString() + "  " + fault.path("code").asString() + "  ";
      assertThat(run.out()).contains(line);
    }
  }

  @Test
  void check_ofAFolder_isAsBadAsItsWorstFile() throws IOException {
    Files.copy(EXAMPLES.resolve("valid/case/minimal.json"), folder.resolve("a.json"));
    assertThat(Run.of("check", folder).exitCode()).isEqualTo(Main.OK);
    Files.createDirectory(folder.resolve("deeper"));
    Files.copy(
        EXAMPLES.resolve("invalid/battery/hop-in-metres.json"), folder.resolve("deeper/b.json"));
    Files.writeString(folder.resolve("not-json.txt"), "{");
    Run run = Run.of("check", folder);
    assertThat(run.exitCode()).isEqualTo(Main.FAULTY);
    assertThat(run.out()).contains("a.json: case, valid", "b.json: battery, ", "unit.wrong");
    assertThat(run.out()).doesNotContain("not-json.txt");
    Files.writeString(folder.resolve("strange.json"), "{\"x\": 1}");
    Run strange = Run.of("check", folder);
    assertThat(strange.exitCode()).isEqualTo(Main.FAILED);
    assertThat(strange.out()).contains("strange.json: cannot tell its kind; name it by --kind");
  }

  @Test
  void check_ofWhatIsNotJson_tellsThePlace() throws IOException {
    Path file = Files.writeString(folder.resolve("twice.json"), "{\"a\": 1,\n \"a\": 2}");
    Run run = Run.of("check", file);
    assertThat(run.exitCode()).isEqualTo(Main.FAULTY);
    assertThat(run.out()).contains("twice.json: not JSON", "json.duplicate-name", "line 2, column");
  }

  @Test
  void check_ofNoFile_failsInOneSentence() {
    Run run = Run.of("check", folder.resolve("none.json"));
    assertThat(run.exitCode()).isEqualTo(Main.FAILED);
    assertThat(run.err()).startsWith("evenside: there is no file ").hasLineCount(1);
    assertThat(Run.of("check").exitCode()).isEqualTo(Main.FAILED);
    assertThat(Run.of("check", "--kind", "nope", "x").err()).contains("--kind takes one of ");
    assertThat(Run.of("check", "--report", "xml", "x").err()).contains("takes text or json");
  }

  @Test
  void assess_printsWhatTheServiceWouldAnswer() {
    Path request = EXAMPLES.resolve("valid/assessment-request/two-sets-side-by-side.json");
    Run run = Run.of("assess", request);
    assertThat(run.exitCode()).as(run.err()).isEqualTo(Main.OK);
    JsonNode assessment = JsonMapper.shared().readTree(run.out());
    assertThat(assessment.path("recorded").asBoolean(true)).isFalse();
    assertThat(assessment.path("decisions").size()).isEqualTo(2);
    assertThat(LiveService.CONTRACT.validate("assessment", assessment)).isEmpty();
  }

  @Test
  void assess_ofAFaultyRequest_namesTheFaults() {
    Run run = Run.of("assess", EXAMPLES.resolve("valid/case/minimal.json"));
    assertThat(run.exitCode()).isEqualTo(Main.FAULTY);
    assertThat(run.out()).isEmpty();
    assertThat(run.err()).contains("#/batteries  member.missing");
  }

  @ParameterizedTest
  @ValueSource(strings = {"0.0.0.0", "192.0.2.1", "::", "evil.example", "127.0.0.1.evil.example"})
  void serve_onAnotherAddress_isRefusedWithTheReason(String host) {
    Run run = Run.of("serve", "--port", "0", "--host", host, "--data", folder);
    assertThat(run.exitCode()).isEqualTo(Main.FAILED);
    assertThat(run.err()).contains("set authentication = true");
    assertThat(folder).isEmptyDirectory();
  }

  @Test
  void serve_withFaultyOptions_isRefused() {
    assertThat(Run.of("serve", "--port", "65536").err()).contains("0 to 65535");
    assertThat(Run.of("serve", "--port", "http").exitCode()).isEqualTo(Main.FAILED);
    Run both = Run.of("serve", "--demo", "--database-url", "jdbc:postgresql://localhost/x");
    assertThat(both.err()).contains("leave out database-url");
    Run elsewhere = Run.of("serve", "--database-url", "jdbc:other:x", "--data", folder);
    assertThat(elsewhere.exitCode()).isEqualTo(Main.FAILED);
    assertThat(elsewhere.err()).startsWith("evenside: ").contains("jdbc:postgresql:");
  }

  @Test
  void serve_showSettings_printsThemAndStartsNothing() throws IOException {
    Path file = Files.writeString(folder.resolve("s.properties"), "port = 1\nledger-name = l\n");
    Run run = Run.of("serve", "--settings", file, "--port", "2", "--demo", "--show-settings");
    assertThat(run.exitCode()).as(run.err()).isEqualTo(Main.OK);
    assertThat(run.out().lines())
        .anyMatch(line -> line.matches("port +2 +flag --port"))
        .anyMatch(line -> line.matches("demo +true +flag --demo"))
        .anyMatch(line -> line.matches("ledger-name +l +.*s.properties:2"));
    Files.writeString(file, "port = 1\nprot = 2\n");
    Run refused = Run.of("serve", "--settings", file);
    assertThat(refused.exitCode()).isEqualTo(Main.FAILED);
    assertThat(refused.err())
        .contains("s.properties:2: unknown setting \"prot\"; did you mean port?");
  }

  @Test
  void help_namesEveryCommand() {
    assertThat(Run.of().out()).contains("serve", "check", "compare", "assess", "--version");
    assertThat(Run.of("--version").out()).startsWith("evenside ");
    assertThat(Run.of("serve", "--version").out()).startsWith("evenside ");
  }
}
