package evenside.store;

import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;

class PostgresOutboxTest extends OutboxContract {
  private static PostgresServer server;
  private static Store store;

  @BeforeAll
  static void open() {
    server = PostgresServer.start();
    store = Store.open(server.settings().allowingWeakDurability());
  }

  @AfterAll
  static void close() {
    store.close();
    server.close();
  }

  @Override
  Store store() {
    return store;
  }
}
