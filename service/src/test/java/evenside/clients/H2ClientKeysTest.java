package evenside.clients;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.store.OpenStore;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.api.io.TempDir;

class H2ClientKeysTest extends ClientKeysContract {
  @RegisterExtension static final OpenStore OPEN = OpenStore.onH2();

  @Override
  Store store() {
    return OPEN.store();
  }

  @Test
  void secret_isNowhereInTheFiles(@TempDir Path folder) throws Exception {
    IssuedKey issued;
    try (Store own = Store.open(StoreSettings.inFolder(folder))) {
      ClientKeys keys = new ClientKeys(own, InstantSource.fixed(Instant.EPOCH));
      issued = keys.issue("c", "gym", Set.of("audit:read"), Instant.EPOCH.plusSeconds(9));
    }
    String secret = issued.token().substring(21);
    byte[] file = Files.readAllBytes(folder.resolve("evenside.mv.db"));
    assertThat(new String(file, StandardCharsets.ISO_8859_1))
        .contains(issued.key().id())
        .doesNotContain(secret);
  }
}
