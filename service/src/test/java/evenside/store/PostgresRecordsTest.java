package evenside.store;

import evenside.store.database.StoreSettings;
import org.junit.jupiter.api.extension.RegisterExtension;

class PostgresRecordsTest extends RecordsContract {
  @RegisterExtension static final OpenStore OPEN = OpenStore.onPostgres();

  @Override
  StoreSettings settings() {
    return OPEN.settings();
  }

  @Override
  Store store() {
    return OPEN.store();
  }
}
