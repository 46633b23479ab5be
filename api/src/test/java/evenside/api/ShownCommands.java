package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import evenside.api.command.Main;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;

/** Runs commands as documentation shows them, on the service and the classes under test. */
public final class ShownCommands {
  private static final String ADDRESS = "http://127.0.0.1:8080";
  private static final String JAR = "java -jar api/target/evenside.jar";

  private ShownCommands() {}

  /** What a command did; what it wrote to its standard error is not kept. */
  public record Ran(int exit, String output) {}

  /** Runs a script of bash that ends at the first command that fails. */
  public static Ran run(String script, Path folder, int port)
      throws IOException, InterruptedException {
    Process process =
        new ProcessBuilder("bash", "-euo", "pipefail", "-c", here(script, port))
            .directory(folder.toAbsolutePath().toFile())
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    return new Ran(process.waitFor(), output);
  }

  /** Ends a test as not to be tried where a program is missing, or as failed where all are due. */
  public static void assumeHere(String... programs) throws IOException, InterruptedException {
    for (String program : programs) {
      boolean here = run("command -v " + program, Path.of("."), 0).exit() == 0;
      if ("true".equals(System.getenv("EVENSIDE_ALL_TESTS"))) {
        assertThat(here).as(program + " is here").isTrue();
      }
      assumeTrue(here, program + " is not here");
    }
  }

  private static String here(String script, int port) {
    String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
    String main =
        java
            + " -XX:TieredStopAtLevel=1 -cp '"
            + System.getProperty("java.class.path")
            + "' "
            + Main.class.getName();
    return script.replace(ADDRESS, "http://127.0.0.1:" + port).replace(JAR, main);
  }
}
