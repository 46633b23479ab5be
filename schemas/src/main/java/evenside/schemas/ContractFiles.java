package evenside.schemas;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;

/**
 * Finds the published files, on the class path or in a folder; paths are relative, with {@code /}.
 */
final class ContractFiles {

  /** What is published; examples lie beside it and are not part of the promise. */
  static final List<String> FOLDERS =
      List.of("v1", "catalogue", "criteria", "instruments", "progressions", "bundles");

  private static final String ROOT = "/evenside/contract/";

  private ContractFiles() {}

  /** The files in the jar: those the lock lists, each checked against it. */
  static SortedMap<String, byte[]> onClassPath() {
    Lock lock = Lock.parse(resource(Lock.FILE));
    SortedMap<String, byte[]> files = new TreeMap<>();
    for (String path : lock.sha256ByPath().keySet()) {
      byte[] bytes = resource(path);
      lock.check(path, bytes);
      files.put(path, bytes);
    }
    return files;
  }

  /**
   * The JSON files below the published folders, whatever the lock says; a folder may be missing.
   */
  static SortedMap<String, byte[]> in(Path folder) {
    SortedMap<String, byte[]> files = new TreeMap<>();
    for (String name : FOLDERS) {
      Path published = folder.resolve(name);
      if (Files.isDirectory(published)) {
        for (Path file : jsonFiles(published)) {
          files.put(slashed(folder.relativize(file)), bytes(file));
        }
      }
    }
    return files;
  }

  private static List<Path> jsonFiles(Path folder) {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(file -> file.toString().endsWith(".json")).toList();
    } catch (IOException unreadable) {
      throw new UncheckedIOException("cannot list " + folder, unreadable);
    }
  }

  private static String slashed(Path path) {
    return path.toString().replace('\\', '/');
  }

  private static byte[] bytes(Path file) {
    try {
      return Files.readAllBytes(file);
    } catch (IOException unreadable) {
      throw new UncheckedIOException("cannot read " + file, unreadable);
    }
  }

  private static byte[] resource(String path) {
    try (InputStream in = ContractFiles.class.getResourceAsStream(ROOT + path)) {
      if (in == null) {
        throw new IllegalStateException("the contract lacks " + path);
      }
      return in.readAllBytes();
    } catch (IOException unreadable) {
      throw new UncheckedIOException("cannot read " + path, unreadable);
    }
  }
}
