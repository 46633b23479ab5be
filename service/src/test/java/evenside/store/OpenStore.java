package evenside.store;

import evenside.store.database.StoreSettings;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.extension.AfterAllCallback;
import org.junit.jupiter.api.extension.BeforeAllCallback;
import org.junit.jupiter.api.extension.ExtensionContext;

/** A store that is open as long as the tests of a class run, in the database that they name. */
public abstract class OpenStore implements BeforeAllCallback, AfterAllCallback {
  private Store store;

  private OpenStore() {}

  /** In a file of H2. */
  public static OpenStore onH2() {
    return new OnH2();
  }

  /** On a PostgreSQL server of its own, which does not sync. */
  public static OpenStore onPostgres() {
    return new OnPostgres();
  }

  /** Where it is, for a second one beside it. */
  public abstract StoreSettings settings();

  abstract void makeRoom() throws IOException;

  abstract void tidyUp() throws IOException;

  /** The store. */
  public Store store() {
    return store;
  }

  @Override
  public void beforeAll(ExtensionContext context) throws IOException {
    makeRoom();
    store = Store.open(settings());
  }

  @Override
  public void afterAll(ExtensionContext context) throws IOException {
    store.close();
    tidyUp();
  }

  private static final class OnH2 extends OpenStore {
    private Path folder = Path.of("");

    @Override
    void makeRoom() throws IOException {
      folder = Files.createTempDirectory("evenside-test");
    }

    @Override
    public StoreSettings settings() {
      return StoreSettings.inFolder(folder);
    }

    @Override
    void tidyUp() throws IOException {
      try (Stream<Path> all = Files.walk(folder)) {
        List<Path> innermostFirst = all.sorted(Comparator.reverseOrder()).toList();
        for (Path each : innermostFirst) {
          Files.delete(each);
        }
      }
    }
  }

  private static final class OnPostgres extends OpenStore {
    private PostgresServer server;

    @Override
    void makeRoom() {
      server = PostgresServer.start();
    }

    @Override
    public StoreSettings settings() {
      return server.settings().allowingWeakDurability();
    }

    @Override
    void tidyUp() {
      server.close();
    }
  }
}
