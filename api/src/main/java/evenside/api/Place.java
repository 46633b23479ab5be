package evenside.api;

import static evenside.api.settings.Catalogue.DATA;
import static evenside.api.settings.Catalogue.DATABASE_PASSWORD;
import static evenside.api.settings.Catalogue.DATABASE_URL;
import static evenside.api.settings.Catalogue.DATABASE_USER;
import static evenside.api.settings.Catalogue.WEAK_DURABILITY;

import evenside.api.demo.DemoClinic;
import evenside.api.settings.Settings;
import evenside.clients.ClientKeys;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.Comparator;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;

/**
 * Where the record of a service is.
 *
 * @param folder the data folder; holds the record unless a database server does, and what is kept
 *     beside it
 * @param store the database
 * @param embedded whether the record is in the folder
 * @param clinic the one clinic of a service without credentials
 * @param demo whether it is the invented clinic, whose folder goes when the service stops
 */
public record Place(
    Path folder, StoreSettings store, boolean embedded, String clinic, boolean demo) {
  private static final String LOCAL = "local";

  /** The place that the settings name. */
  public static Place of(Settings settings) {
    Path folder = settings.get(DATA);
    Optional<StoreSettings> server =
        settings
            .get(DATABASE_URL)
            .map(
                url ->
                    StoreSettings.at(
                        url, settings.get(DATABASE_USER), settings.get(DATABASE_PASSWORD)))
            .map(at -> settings.get(WEAK_DURABILITY) ? at.allowingWeakDurability() : at);
    StoreSettings store = server.orElseGet(() -> StoreSettings.inFolder(folder));
    return new Place(folder, store, server.isEmpty(), LOCAL, false);
  }

  /** A temporary folder for the invented clinic. */
  static Place ofDemo() {
    try {
      Path folder = Files.createTempDirectory("evenside-demo");
      return new Place(folder, StoreSettings.inFolder(folder), true, DemoClinic.NAME, true);
    } catch (IOException e) {
      throw new UncheckedIOException("cannot make a temporary folder", e);
    }
  }

  /** The record in the data folder, whatever server is named too. */
  public Place inItsFolder() {
    return new Place(folder, StoreSettings.inFolder(folder), true, clinic, demo);
  }

  /** Does something with the keys of the clients; an embedded record must not be in use. */
  public <T> T withKeys(Function<ClientKeys, T> work) {
    try (Store opened = Store.open(store)) {
      return work.apply(new ClientKeys(opened, InstantSource.system()));
    }
  }

  /** For a person. */
  String inWords() {
    if (demo) {
      return "an invented demonstration clinic, gone when the service stops";
    }
    return embedded ? folder.toString() : "a database server";
  }

  /** Takes away what is not to stay. */
  void leave() {
    if (demo) {
      delete(folder);
    }
  }

  static void delete(Path folder) {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(file);
      }
    } catch (IOException e) {
      throw new UncheckedIOException("cannot delete " + folder, e);
    }
  }
}
