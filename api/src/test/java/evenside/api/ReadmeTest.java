package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import evenside.api.ShownCommands.Ran;
import evenside.api.openapi.Repository;
import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Every command that the README shows does what it says. Needs bash and curl; CI has both. */
class ReadmeTest {
  private static final Pattern BLOCK = Pattern.compile("```sh\n(.*?)```", Pattern.DOTALL);

  @RegisterExtension static final LiveService SERVICE = new LiveService();

  @Test
  void commands_giveAnswers_inTheOrderOfTheReadme() throws Exception {
    assumeTrue(run("command -v curl").exit() == 0, "curl is not here");
    List<String> commands = commands();
    assertThat(commands).hasSizeGreaterThan(6);
    for (String command : commands) {
      Ran ran = run(command);
      assertThat(ran.exit()).as("%s%n%s", command, ran.output()).isZero();
      assertThat(ran.output()).as(command).isNotBlank();
      if (ran.output().startsWith("{")) {
        JsonNode answer = JsonMapper.shared().readTree(ran.output());
        assertThat(answer.path("status").asInt(200)).as("%s%n%s", command, answer).isEqualTo(200);
      }
    }
  }

  @Test
  void firstDecision_namesWhatIsMissing() throws Exception {
    assumeTrue(run("command -v curl").exit() == 0, "curl is not here");
    List<String> clinic = commands().subList(0, 3);
    JsonNode decision = null;
    for (String command : clinic) {
      decision = JsonMapper.shared().readTree(run(command).output());
    }
    assertThat(decision.path("outcome").asString()).isEqualTo("not-met");
    assertThat(decision.path("undetermined").toString()).contains("effusion");
  }

  /** Blocks are split where a line is blank. */
  private static List<String> commands() throws IOException {
    String readme = Files.readString(Repository.path("README.md"));
    Matcher block = BLOCK.matcher(readme);
    Stream.Builder<String> commands = Stream.builder();
    while (block.find()) {
      Stream.of(block.group(1).split("\n\n")).map(String::strip).forEach(commands);
    }
    return commands.build().toList();
  }

  private static Ran run(String command) throws Exception {
    return ShownCommands.run(command, Repository.path("."), SERVICE.port());
  }
}
