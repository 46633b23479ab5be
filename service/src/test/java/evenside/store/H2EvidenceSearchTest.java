package evenside.store;

import org.junit.jupiter.api.extension.RegisterExtension;

class H2EvidenceSearchTest extends EvidenceSearchContract {
  @RegisterExtension static final OpenStore OPEN = OpenStore.onH2();

  @Override
  Store store() {
    return OPEN.store();
  }
}
