package evenside.store;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;

/**
 * A program in a process of its own, that works on a folder for ever and prints a line for each
 * thing that was acknowledged, to be killed in the middle of it.
 */
public final class Victim implements AutoCloseable {
  private final Process process;
  private final Path errors;
  private final BufferedReader lines;

  private Victim(Process process, Path errors) {
    this.process = process;
    this.errors = errors;
    this.lines = new BufferedReader(new InputStreamReader(process.getInputStream(), UTF_8));
  }

  /**
   * Starts it.
   *
   * @param program has a main method, which is given the folder
   */
  public static Victim start(Class<?> program, Path folder) throws IOException {
    Path errors = folder.resolve("errors.txt");
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                program.getName(),
                folder.toString())
            .redirectError(errors.toFile())
            .start();
    return new Victim(process, errors);
  }

  /** Waits until something was acknowledged. */
  void awaitLine() throws IOException {
    if (lines.readLine() == null) {
      throw endedByItself();
    }
  }

  /**
   * Kills it (SIGKILL) after so many lines, and hands on all that it printed until it was dead.
   *
   * @param length of a whole line: the pipe may end inside one, which is no acknowledgement then
   */
  public void killAfter(int count, int length, Consumer<String> acknowledged) throws IOException {
    int read = 0;
    for (String line = lines.readLine(); line != null; line = lines.readLine()) {
      if (line.length() == length) {
        acknowledged.accept(line);
      }
      if (++read == count) {
        // By its handle: Process.destroyForcibly would also close the pipe with what is in it.
        process.toHandle().destroyForcibly();
      }
    }
    if (read < count) {
      throw endedByItself();
    }
  }

  private AssertionError endedByItself() throws IOException {
    return new AssertionError("it ended by itself: " + Files.readString(errors));
  }

  @Override
  public void close() {
    process.destroyForcibly().onExit().orTimeout(10, TimeUnit.SECONDS).join();
  }
}
