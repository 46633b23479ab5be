package evenside.store;

import org.junit.jupiter.api.extension.RegisterExtension;

class H2SessionsTest extends SessionsContract {
  @RegisterExtension static final OpenStore OPEN = OpenStore.onH2();

  @Override
  Store store() {
    return OPEN.store();
  }
}
