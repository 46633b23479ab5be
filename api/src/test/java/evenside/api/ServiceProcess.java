package evenside.api;

import evenside.api.command.Main;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * The service in a process of its own, as the jar starts it, with its real log: what only a whole
 * process can show (signals, kills, its memory, its output, several over one database).
 */
public final class ServiceProcess implements AutoCloseable {
  private static final Pattern GREETING = Pattern.compile("listens on (http\\S+)\\R");

  private final Process process;
  private final Path output;
  private Optional<URI> url = Optional.empty();

  private ServiceProcess(Process process, Path output) {
    this.process = process;
    this.output = output;
  }

  /**
   * Starts it on a free port, without time to drain unless a flag says otherwise, and does not wait
   * for it: {@link #url} does.
   *
   * @param data folder of its record; its output goes to a file beside it
   * @param flags of {@code serve}
   */
  public static ServiceProcess start(Path data, Object... flags) throws IOException {
    return startWithHeap("256m", data, flags);
  }

  /** The same with another heap, as Java has it: {@code 64m}. */
  public static ServiceProcess startWithHeap(String heap, Path data, Object... flags)
      throws IOException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-Xmx" + heap, "-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1"));
    command.addAll(List.of("-XX:+ExitOnOutOfMemoryError", "-cp", classPath()));
    command.addAll(List.of(Main.class.getName(), "serve", "--port", "0"));
    command.addAll(List.of("--data", data.toString()));
    Arrays.stream(flags).map(Object::toString).forEach(command::add);
    Path output = data.resolveSibling(data.getFileName() + ".log");
    ProcessBuilder builder =
        new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(output.toFile());
    builder.environment().put("EVENSIDE_DRAIN_SECONDS", "0");
    return new ServiceProcess(builder.start(), output);
  }

  /** Without the test classes, whose log configuration would win. */
  private static String classPath() {
    String separator = System.getProperty("path.separator");
    return Arrays.stream(System.getProperty("java.class.path").split(separator))
        .filter(place -> !place.endsWith("test-classes"))
        .collect(Collectors.joining(separator));
  }

  /** Where it listens; waits until it does. */
  public synchronized URI url() throws IOException {
    for (int i = 0; i < 600 && url.isEmpty() && process.isAlive(); i++) {
      Matcher greeting = GREETING.matcher(output());
      if (greeting.find()) {
        url = Optional.of(URI.create(greeting.group(1)));
      } else {
        pause();
      }
    }
    if (url.isEmpty()) {
      process.destroyForcibly();
      throw new IllegalStateException("the service did not start:\n" + output());
    }
    return url.get();
  }

  private static void pause() {
    try {
      Thread.sleep(50);
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Everything it has written so far, to both streams. */
  public String output() throws IOException {
    return Files.readString(output);
  }

  public boolean isAlive() {
    return process.isAlive();
  }

  /** Asks it to stop, as a supervisor does (SIGTERM). */
  public void terminate() {
    process.destroy();
  }

  /** Its exit code, once it has ended. */
  public int await() throws InterruptedException {
    if (!process.waitFor(60, TimeUnit.SECONDS)) {
      throw new IllegalStateException("the service does not end");
    }
    return process.exitValue();
  }

  /** SIGKILL: nothing is closed, nothing is finished. */
  public void kill() {
    process.destroyForcibly().onExit().orTimeout(10, TimeUnit.SECONDS).join();
  }

  /** Lets it finish, as its keeper would. */
  @Override
  public void close() {
    process.destroy();
    process.onExit().orTimeout(30, TimeUnit.SECONDS).join();
  }
}
