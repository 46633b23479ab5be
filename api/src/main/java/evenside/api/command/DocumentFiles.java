package evenside.api.command;

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
  /** In the published examples such a file lists the faults of the one beside it. */
  private static final String EXPECTED = ".expected.json";

  private DocumentFiles() {}

  /**
   * One file.
   *
   * @param path where it is
   * @param folders names of the folders it lies in, the nearest first, up to the one that was
   *     named; empty for a file that was named itself
   */
  record Found(Path path, List<String> folders) {}

  /** The files themselves, and the {@code .json} files in and under the folders, by name. */
  static List<Found> expand(List<Path> named) {
    List<Found> files = new ArrayList<>();
    for (Path path : named) {
      if (Files.isDirectory(path)) {
        files.addAll(inside(path));
      } else {
        files.add(new Found(path, List.of()));
      }
    }
    return files;
  }

  private static List<Found> inside(Path folder) {
    try (Stream<Path> files = Files.walk(folder)) {
      List<Found> found =
          files
              .filter(file -> file.toString().endsWith(".json") && Files.isRegularFile(file))
              .filter(file -> !file.toString().endsWith(EXPECTED))
              .sorted()
              .map(file -> new Found(file, folders(folder, file)))
              .toList();
      // Nothing found with fault must not look like nothing at fault.
      if (found.isEmpty()) {
        throw new IllegalArgumentException("there is no .json file in the folder " + folder);
      }
      return found;
    } catch (IOException e) {
      throw new UncheckedIOException("cannot list " + folder, e);
    }
  }

  private static List<String> folders(Path named, Path file) {
    Path top = named.toAbsolutePath().normalize();
    List<String> folders = new ArrayList<>();
    Path folder = file.toAbsolutePath().normalize().getParent();
    while (folder != null && folder.startsWith(top)) {
      Path name = folder.getFileName();
      folders.add(name == null ? "" : name.toString());
      folder = folder.getParent();
    }
    return folders;
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
