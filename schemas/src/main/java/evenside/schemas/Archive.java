package evenside.schemas;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/**
 * The integrator's archive: everything published, the examples and the HTTP contract in one zip
 * file, which needs no Java to be used.
 *
 * <p>The build writes it. Equal contents give equal bytes: entries are sorted and all carry the
 * same time, so its fingerprint changes only when something in it does.
 */
public final class Archive {
  /** Where the build puts it for the service. */
  private static final String RESOURCE = "/evenside/contract/archive.zip";

  /** A zip entry must have a time; this one says nothing. */
  private static final LocalDateTime TIME = LocalDateTime.of(2026, 1, 1, 0, 0);

  private static final String EXAMPLES = "examples";

  private Archive() {}

  /**
   * The archive in this jar.
   *
   * @throws IllegalStateException if the build left it out
   */
  public static byte[] published() {
    try (InputStream in = Archive.class.getResourceAsStream(RESOURCE)) {
      if (in == null) {
        throw new IllegalStateException("the archive of the schemas is not in the jar");
      }
      return in.readAllBytes();
    } catch (IOException unreadable) {
      throw new UncheckedIOException("cannot read " + RESOURCE, unreadable);
    }
  }

  /**
   * Writes it, for the build.
   *
   * @param args the folder of the schemas, then the files to write
   */
  public static void main(String[] args) throws IOException {
    byte[] archive = of(Path.of(args[0]));
    for (int i = 1; i < args.length; i++) {
      Path file = Path.of(args[i]);
      Files.createDirectories(file.toAbsolutePath().getParent());
      Files.write(file, archive);
    }
  }

  /** The archive of a folder laid out like {@code schemas/} of this project. */
  static byte[] of(Path folder) throws IOException {
    SortedMap<String, byte[]> files = ContractFiles.in(folder);
    files.putAll(examples(folder));
    for (String name : new String[] {Lock.FILE, Changes.FILE, "README.md"}) {
      files.put(name, Files.readAllBytes(folder.resolve(name)));
    }
    for (String name : new String[] {"LICENSE", "openapi.yaml"}) {
      files.put(name, Files.readAllBytes(folder.resolve("..").resolve(name)));
    }
    return zip(files);
  }

  private static SortedMap<String, byte[]> examples(Path folder) throws IOException {
    SortedMap<String, byte[]> examples = new TreeMap<>();
    try (Stream<Path> files = Files.walk(folder.resolve(EXAMPLES))) {
      for (Path file : files.filter(one -> one.toString().endsWith(".json")).toList()) {
        examples.put(
            folder.relativize(file).toString().replace('\\', '/'), Files.readAllBytes(file));
      }
    }
    return examples;
  }

  static byte[] zip(SortedMap<String, byte[]> files) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
      for (Map.Entry<String, byte[]> file : files.entrySet()) {
        ZipEntry entry = new ZipEntry(file.getKey());
        entry.setTimeLocal(TIME);
        zip.putNextEntry(entry);
        zip.write(file.getValue());
        zip.closeEntry();
      }
    }
    return bytes.toByteArray();
  }
}
