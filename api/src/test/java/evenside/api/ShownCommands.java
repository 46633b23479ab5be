package evenside.api;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;

/** Runs commands as documentation shows them, on the service and the classes under test. */
final class ShownCommands {
  private static final String ADDRESS = "http://127.0.0.1:8080";
  private static final String JAR = "java -jar api/target/evenside.jar";

  private ShownCommands() {}

  /** What a command did; what it wrote to its standard error is not kept. */
  record Ran(int exit, String output) {}

  /** Runs a script of bash that ends at the first command that fails. */
  static Ran run(String script, Path folder, int port) throws IOException, InterruptedException {
    Process process =
        new ProcessBuilder("bash", "-euo", "pipefail", "-c", here(script, port))
            .directory(folder.toAbsolutePath().toFile())
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    return new Ran(process.waitFor(), output);
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
