package evenside.store.evidence;

import evenside.store.OpenStore;
import evenside.store.Store;
import org.junit.jupiter.api.extension.RegisterExtension;

class H2EvidenceSearchTest extends EvidenceSearchContract {
  @RegisterExtension static final OpenStore OPEN = OpenStore.onH2();

  @Override
  Store store() {
    return OPEN.store();
  }
}
