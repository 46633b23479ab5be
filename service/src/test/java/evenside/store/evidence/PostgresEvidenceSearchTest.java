package evenside.store.evidence;

import evenside.store.OpenStore;
import evenside.store.Store;
import org.junit.jupiter.api.extension.RegisterExtension;

class PostgresEvidenceSearchTest extends EvidenceSearchContract {
  @RegisterExtension static final OpenStore OPEN = OpenStore.onPostgres();

  @Override
  Store store() {
    return OPEN.store();
  }
}
