package evenside.store.work;

import evenside.store.OpenStore;
import evenside.store.Store;
import org.junit.jupiter.api.extension.RegisterExtension;

class PostgresOutboxTest extends OutboxContract {
  @RegisterExtension static final OpenStore OPEN = OpenStore.onPostgres();

  @Override
  Store store() {
    return OPEN.store();
  }
}
