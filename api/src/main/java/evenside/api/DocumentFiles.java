package evenside.api;

import evenside.schemas.StrictJson;
import evenside.schemas.StrictJson.Limits;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;

/** The files that a command names, read as strictly as the service reads a body. */
final class DocumentFiles {
  private DocumentFiles() {}

  /** The files themselves, and the {@code .json} files in and under the folders, by name. */
  static List<Path> expand(List<Path> named) {
    List<Path> files = new ArrayList<>();
    for (Path path : named) {
      if (Files.isDirectory(path)) {
        files.addAll(inside(path));
      } else {
        files.add(path);
      }
    }
    return files;
  }

  private static List<Path> inside(Path folder) {
    try (Stream<Path> files = Files.walk(folder)) {
      return files
          .filter(file -> file.toString().endsWith(".json") && Files.isRegularFile(file))
          .sorted()
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException("cannot list " + folder, e);
    }
  }

  /**
   * Reads one.
   *
   * @throws evenside.schemas.NotJson if it is not JSON within the limits of a request
   */
  static JsonNode read(Path file) {
    int max = Limits.REQUEST.maxBytes();
    try (InputStream in = Files.newInputStream(file)) {
      // One byte more than allowed is enough to be refused.
      return StrictJson.read(in.readNBytes(max + 1), Limits.REQUEST);
    } catch (NoSuchFileException e) {
      throw new UncheckedIOException("there is no file " + file, e);
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + file, e);
    }
  }
}
