package evenside.api.command;

import evenside.api.Place;
import evenside.api.settings.Settings;
import java.nio.file.Path;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** Options that name a record in a data folder, as {@code serve} names it. */
final class FolderOptions {
  @Option(
      names = "--settings",
      paramLabel = "FILE",
      defaultValue = "${env:" + Settings.FILE_VARIABLE + "}",
      description = "The settings file of the service.")
  private @Nullable Path file;

  @Option(
      names = "--data",
      paramLabel = "DIR",
      description = "Data folder of the record. Default: data.")
  private @Nullable String data;

  /**
   * The place that these, the environment and the settings file name.
   *
   * @param otherwise what to do where a database server keeps the record
   * @throws IllegalArgumentException saying that, if a server is named
   */
  Place place(String otherwise) {
    Place place = RecordOptions.place(Optional.ofNullable(file), data);
    if (!place.embedded()) {
      throw new IllegalArgumentException(
          "the settings name a database server, and this works on a data folder: " + otherwise);
    }
    return place;
  }
}
