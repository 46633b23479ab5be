package evenside.store;

import evenside.store.database.StoreSettings;
import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;

/**
 * A PostgreSQL of its own for one test class. {@link #start} runs with fsync and synchronous_commit
 * off, so it says nothing about durability, and {@link Store} must refuse it unless allowed by
 * name; {@link #startDurable} runs the same binaries with both on, and can be stopped and started.
 */
public final class PostgresServer implements AutoCloseable {
  private static final Map<String, String> DURABLE =
      Map.of("fsync", "on", "synchronous_commit", "on");

  private final Optional<Path> folder;
  private final Map<String, String> options;
  private EmbeddedPostgres server;

  private PostgresServer(Optional<Path> folder, Map<String, String> options) {
    this.folder = folder;
    this.options = options;
    this.server = start(0);
  }

  public static PostgresServer start() {
    return new PostgresServer(Optional.empty(), Map.of());
  }

  /** Keeps what it acknowledged, in a folder that outlives it. */
  public static PostgresServer startDurable(Path folder) {
    return new PostgresServer(Optional.of(folder), DURABLE);
  }

  /** With other settings; made anew only if the folder is empty, which takes its time. */
  static PostgresServer startWith(Path folder, Map<String, String> options) {
    return new PostgresServer(Optional.of(folder), options);
  }

  private EmbeddedPostgres start(int port) {
    EmbeddedPostgres.Builder builder = EmbeddedPostgres.builder();
    options.forEach(builder::setServerConfig);
    folder.ifPresent(path -> builder.setDataDirectory(path).setCleanDataDirectory(false));
    if (port != 0) {
      builder.setPort(port);
    }
    try {
      return builder.start();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public StoreSettings settings() {
    return StoreSettings.at(
        "jdbc:postgresql://localhost:" + server.getPort() + "/postgres", "postgres", "postgres");
  }

  /** Goes away; every connection breaks. */
  public void stop() {
    close();
  }

  /** Comes back at the same port with what it had. */
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
