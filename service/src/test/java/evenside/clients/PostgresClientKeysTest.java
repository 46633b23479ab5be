package evenside.clients;

import evenside.store.OpenStore;
import evenside.store.Store;
import org.junit.jupiter.api.extension.RegisterExtension;

class PostgresClientKeysTest extends ClientKeysContract {
  @RegisterExtension static final OpenStore OPEN = OpenStore.onPostgres();

  @Override
  Store store() {
    return OPEN.store();
  }
}
