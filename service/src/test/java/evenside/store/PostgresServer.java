package evenside.store;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.io.UncheckedIOException;

/**
 * A PostgreSQL of its own for one test class. It runs with fsync and synchronous_commit off, so it
 * says nothing about durability, and {@link Store} must refuse it unless allowed by name.
 */
public final class PostgresServer implements AutoCloseable {
  private final EmbeddedPostgres server;

  private PostgresServer(EmbeddedPostgres server) {
    this.server = server;
  }

  public static PostgresServer start() {
    try {
      return new PostgresServer(EmbeddedPostgres.start());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public StoreSettings settings() {
    return StoreSettings.at(
        "jdbc:postgresql://localhost:" + server.getPort() + "/postgres", "postgres", "postgres");
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
