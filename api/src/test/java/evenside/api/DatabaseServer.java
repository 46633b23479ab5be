package evenside.api;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;

/** A PostgreSQL server with fsync and synchronous_commit on, that can be stopped and started. */
public final class DatabaseServer implements AutoCloseable {
  private final Path folder;
  private EmbeddedPostgres server;

  public DatabaseServer(Path folder) {
    this.folder = folder;
    this.server = start(0);
  }

  private EmbeddedPostgres start(int port) {
    EmbeddedPostgres.Builder builder =
        EmbeddedPostgres.builder()
            .setDataDirectory(folder)
            .setCleanDataDirectory(false)
            .setServerConfig("fsync", "on")
            .setServerConfig("synchronous_commit", "on");
    try {
      return (port == 0 ? builder : builder.setPort(port)).start();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** With its credentials, as it is the test's own. */
  public String url() {
    return "jdbc:postgresql://localhost:"
        + server.getPort()
        + "/postgres?user=postgres&password=postgres";
  }

  public void restart() {
    server = start(server.getPort());
  }

  @Override
  public void close() {
    try {
      server.close();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
