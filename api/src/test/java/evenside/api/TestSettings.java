package evenside.api;

import evenside.api.settings.Catalogue;
import evenside.api.settings.Settings;
import java.nio.file.Path;

/** Settings of a service that a test starts. */
public final class TestSettings {
  private TestSettings() {}

  /** On a free port, with the record in a folder; nobody asks it, so it need not drain. */
  public static Settings in(Path folder) {
    return Settings.defaults()
        .with(Catalogue.PORT, "0")
        .with(Catalogue.DATA, folder.toString())
        .with(Catalogue.DRAIN_SECONDS, "0");
  }
}
