package evenside.api.command;

import evenside.api.Place;
import evenside.api.settings.Catalogue;
import evenside.api.settings.Settings;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** Options that name a record, as {@code serve} names it. */
final class RecordOptions {
  @Option(
      names = "--settings",
      paramLabel = "FILE",
      defaultValue = "${env:" + Settings.FILE_VARIABLE + "}",
      description = "The settings file of the service.")
  private @Nullable Path file;

  @Option(
      names = "--data",
      paramLabel = "DIR",
      description =
          "Data folder of the record, whose service must be stopped: only backup works while it"
              + " runs. Default: data.")
  private @Nullable String data;

  @Option(
      names = "--database-url",
      paramLabel = "URL",
      description =
          "JDBC URL of the PostgreSQL server that keeps the record; the service may run, unless"
              + " the lines above say otherwise.")
  private @Nullable String databaseUrl;

  /** The place that these, the environment and the settings file name. */
  Place place() {
    return Place.of(settings(Map.of()));
  }

  /**
   * The settings that these, the environment and the settings file make.
   *
   * @param more further flags of the service
   */
  Settings settings(Map<String, String> more) {
    return settings(Optional.ofNullable(file), data, databaseUrl, more);
  }

  private static Settings settings(
      Optional<Path> file,
      @Nullable String data,
      @Nullable String databaseUrl,
      Map<String, String> more) {
    Map<String, String> flags = new LinkedHashMap<>(more);
    put(flags, Catalogue.DATA.name(), data);
    put(flags, Catalogue.DATABASE_URL.name(), databaseUrl);
    return Settings.from(file, System.getenv(), flags);
  }

  static Place place(Optional<Path> file, @Nullable String data) {
    return Place.of(settings(file, data, null, Map.of()));
  }

  /**
   * The same, if there is a record: looking must not make one.
   *
   * @throws IllegalArgumentException if the data folder is not there
   */
  Place existing() {
    return existing(place());
  }

  static Place existing(Place place) {
    if (place.embedded() && !Files.isDirectory(place.folder())) {
      throw new IllegalArgumentException("there is no data folder " + place.folder());
    }
    return place;
  }

  private static void put(Map<String, String> flags, String name, @Nullable String value) {
    if (value != null) {
      flags.put(name, value);
    }
  }
}
