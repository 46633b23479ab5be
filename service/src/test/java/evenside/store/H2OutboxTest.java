package evenside.store;

import java.nio.file.Path;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;

class H2OutboxTest extends OutboxContract {
  private static Store store;

  @BeforeAll
  static void open(@TempDir Path folder) {
    store = Store.open(StoreSettings.inFolder(folder));
  }

  @AfterAll
  static void close() {
    store.close();
  }

  @Override
  Store store() {
    return store;
  }
}
