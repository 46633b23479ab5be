package evenside.api;

import java.io.BufferedReader;
import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** The service as a process of its own, as the jar runs it. */
final class ReplicaProcess implements AutoCloseable {
  private static final String LISTENS = "Evenside listens on ";

  private final Process process;
  private final URI url;

  private ReplicaProcess(Process process, URI url) {
    this.process = process;
    this.url = url;
  }

  /** Begins to start it. */
  static Process begin(Object... arguments) throws IOException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1", "-Xshare:auto"));
    command.addAll(List.of("-cp", System.getProperty("java.class.path")));
    command.addAll(List.of(Main.class.getName(), "serve", "--port", "0"));
    for (Object argument : arguments) {
      command.add(argument.toString());
    }
    return new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.DISCARD).start();
  }

  /** Waits until it listens. */
  static ReplicaProcess of(Process process) throws IOException {
    BufferedReader out = process.inputReader(StandardCharsets.UTF_8);
    String line;
    while ((line = out.readLine()) != null) {
      if (line.startsWith(LISTENS)) {
        URI url = URI.create(line.substring(LISTENS.length()));
        Thread drain = new Thread(() -> out.lines().forEach(more -> {}), "drain");
        drain.setDaemon(true);
        drain.start();
        return new ReplicaProcess(process, url);
      }
    }
    throw new IOException("the service did not start");
  }

  static ReplicaProcess start(Object... arguments) throws IOException {
    return of(begin(arguments));
  }

  URI url() {
    return url;
  }

  /** SIGKILL: nothing is closed, nothing is finished. */
  void kill() {
    process.destroyForcibly().onExit().orTimeout(10, TimeUnit.SECONDS).join();
  }

  @Override
  public void close() {
    process.destroy();
    process.onExit().orTimeout(30, TimeUnit.SECONDS).join();
  }
}
