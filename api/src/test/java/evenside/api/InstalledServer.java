package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * A PostgreSQL server of this machine's own installation, with the tools that belong to it: the one
 * that tests bring along has none. Without an installation a test that asks for it is skipped,
 * unless EVENSIDE_ALL_TESTS=true asks for all.
 */
public final class InstalledServer implements AutoCloseable {
  /** Where Debian keeps each version. */
  private static final Path VERSIONS = Path.of("/usr/lib/postgresql");

  private final Path programs;
  private final Path data;
  private final int port;

  private InstalledServer(Path programs, Path data, int port) {
    this.programs = programs;
    this.data = data;
    this.port = port;
  }

  /** Starts it on a free port, with its data in a new folder, or skips the test. */
  public static InstalledServer start(Path data) throws IOException, InterruptedException {
    Optional<Path> programs = installed();
    if ("true".equals(System.getenv("EVENSIDE_ALL_TESTS"))) {
      assertThat(programs).as("EVENSIDE_ALL_TESTS needs a PostgreSQL server").isPresent();
    }
    assumeTrue(programs.isPresent(), "no PostgreSQL server is installed here");
    InstalledServer server = new InstalledServer(programs.orElseThrow(), data, freePort());
    server.asNobody("initdb", "-D", data, "-U", "postgres", "-A", "trust", "--no-sync");
    String listens = "-p " + server.port + " -h 127.0.0.1 -k ''";
    server.asNobody("pg_ctl", "-D", data, "-o", listens, "-l", data.resolve("log"), "-w", "start");
    return server;
  }

  private static Optional<Path> installed() throws IOException {
    if (!Files.isDirectory(VERSIONS)) {
      return Optional.empty();
    }
    try (Stream<Path> versions = Files.list(VERSIONS)) {
      return versions
          .map(version -> version.resolve("bin"))
          .filter(bin -> Files.isExecutable(bin.resolve("initdb")))
          .max(Comparator.naturalOrder());
    }
  }

  private static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0)) {
      return socket.getLocalPort();
    }
  }

  /** The address of one of its databases. */
  public String url(String database) {
    return "jdbc:postgresql://127.0.0.1:" + port + "/" + database + "?user=postgres";
  }

  /** Runs one of its tools against it; fails with what it printed unless it ends with 0. */
  public void tool(String name, Object... arguments) throws IOException, InterruptedException {
    List<String> command = new ArrayList<>();
    command.add(programs.resolve(name).toString());
    command.addAll(List.of("-h", "127.0.0.1", "-p", Integer.toString(port), "-U", "postgres"));
    Stream.of(arguments).map(Object::toString).forEach(command::add);
    run(command);
  }

  /** The server refuses to run as root, so root becomes nobody in a name space of its own. */
  private void asNobody(String name, Object... arguments) throws IOException, InterruptedException {
    List<String> command = new ArrayList<>();
    if (System.getProperty("user.name").equals("root")) {
      command.addAll(List.of("unshare", "-U"));
    }
    command.add(programs.resolve(name).toString());
    Stream.of(arguments).map(Object::toString).forEach(command::add);
    run(command);
  }

  private void run(List<String> command) throws IOException, InterruptedException {
    Path output = data.resolveSibling("tools.log");
    Process process =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.appendTo(output.toFile()))
            .start();
    assertThat(process.waitFor()).as(command + ": " + Files.readString(output)).isZero();
  }

  @Override
  public void close() throws IOException {
    try {
      asNobody("pg_ctl", "-D", data, "-m", "immediate", "stop");
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }
}
