package evenside.store;

import org.junit.jupiter.api.extension.RegisterExtension;

class PostgresSessionsTest extends SessionsContract {
  @RegisterExtension static final OpenStore OPEN = OpenStore.onPostgres();

  @Override
  Store store() {
    return OPEN.store();
  }
}
