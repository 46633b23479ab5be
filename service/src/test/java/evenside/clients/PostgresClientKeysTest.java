package evenside.clients;

import evenside.store.PostgresServer;
import evenside.store.Store;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;

class PostgresClientKeysTest extends ClientKeysContract {
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
