package evenside.api;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * The service in a process of its own, as the jar starts it, with its real log: what only a whole
 * process can show (signals, its memory, its output).
 */
final class ChildService implements AutoCloseable {
  private static final Pattern GREETING = Pattern.compile("listens on http://[^:]+:([0-9]+)");

  private final Process process;
  private final Path output;
  private final int port;

  private ChildService(Process process, Path output) throws IOException {
    this.process = process;
    this.output = output;
    this.port = awaitPort();
  }

  /**
   * Starts it on a free port.
   *
   * @param folder takes its output, and its record in {@code data}
   * @param heap most memory of its heap, as Java has it: {@code 64m}
   * @param flags of {@code serve}
   */
  static ChildService start(Path folder, String heap, String... flags) throws IOException {
    String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
    List<String> command =
        new ArrayList<>(
            List.of(
                java,
                "-Xmx" + heap,
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-XX:+ExitOnOutOfMemoryError",
                "-cp",
                classPath(),
                Main.class.getName(),
                "serve",
                "--port",
                "0",
                "--data",
                folder.resolve("data").toString()));
    command.addAll(Arrays.asList(flags));
    Path output = folder.resolve("output.log");
    Process process =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(output.toFile())
            .start();
    return new ChildService(process, output);
  }

  /** Without the test classes, whose log configuration would win. */
  private static String classPath() {
    String separator = System.getProperty("path.separator");
    return Arrays.stream(System.getProperty("java.class.path").split(separator))
        .filter(place -> !place.endsWith("test-classes"))
        .collect(Collectors.joining(separator));
  }

  private int awaitPort() throws IOException {
    for (int i = 0; i < 600; i++) {
      Matcher greeting = GREETING.matcher(output());
      if (greeting.find()) {
        return Integer.parseInt(greeting.group(1));
      }
      if (!process.isAlive()) {
        break;
      }
      pause();
    }
    process.destroyForcibly();
    throw new IllegalStateException("the service did not start:\n" + output());
  }

  private static void pause() {
    try {
      Thread.sleep(50);
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  int port() {
    return port;
  }

  String url() {
    return "http://127.0.0.1:" + port;
  }

  /** Everything it has written so far, to both streams. */
  String output() throws IOException {
    return Files.readString(output);
  }

  boolean isAlive() {
    return process.isAlive();
  }

  /** Asks it to stop, as a supervisor does (SIGTERM). */
  void terminate() {
    process.destroy();
  }

  /** Its exit code, once it has ended. */
  int await() throws InterruptedException {
    if (!process.waitFor(60, TimeUnit.SECONDS)) {
      throw new IllegalStateException("the service does not end");
    }
    return process.exitValue();
  }

  @Override
  public void close() {
    process.destroyForcibly();
  }
}
