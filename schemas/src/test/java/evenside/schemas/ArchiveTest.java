package evenside.schemas;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The archive as an integrator gets it: nothing here is read from the folders of the project. */
class ArchiveTest {

  private static final SortedMap<String, byte[]> FILES = unpack(Archive.published());

  @Test
  void archive_holds_every_locked_file_as_published_and_every_folder() {
    Lock lock = Lock.parse(FILES.get(Lock.FILE));
    lock.sha256ByPath().keySet().forEach(path -> lock.check(path, FILES.get(path)));
    assertThat(FILES).containsKeys("README.md", "LICENSE", "openapi.yaml", "changes.json");
    for (String folder : ContractFiles.FOLDERS) {
      assertThat(FILES.keySet()).as(folder).anyMatch(path -> path.startsWith(folder + "/"));
      assertThat(text("README.md")).contains("`" + folder + "/");
    }
  }

  /**
   * The second validator, json-schema by harrel 1.8.2, with the bundles of the archive alone: as
   * the README in it says, valid examples pass and invalid ones fail.
   */
  @Test
  void examples_have_their_verdict_with_an_outside_validator() {
    Map<String, OutsideValidator> validators = new TreeMap<>();
    List<String> wrong = new ArrayList<>();
    int seen = 0;
    for (String path : FILES.keySet()) {
      String[] parts = path.split("/");
      if (parts[0].equals("examples") && !path.endsWith(".expected.json")) {
        OutsideValidator validator = validators.computeIfAbsent(parts[2], ArchiveTest::outside);
        boolean valid = validator.takes(parts[2], text(path));
        if (valid != parts[1].equals("valid")) {
          wrong.add(path);
        }
        seen++;
      }
    }
    assertThat(wrong).isEmpty();
    assertThat(seen).isGreaterThan(150);
  }

  @Test
  void equal_contents_give_equal_bytes() throws IOException {
    assertThat(Archive.of(Corpus.FOLDER)).isEqualTo(Archive.of(Corpus.FOLDER));
    SortedMap<String, byte[]> changed = new TreeMap<>(FILES);
    assertThat(Archive.zip(changed)).isEqualTo(Archive.zip(FILES));
    changed.put("README.md", new byte[] {'x'});
    assertThat(Archive.zip(changed)).isNotEqualTo(Archive.zip(FILES));
  }

  @Test
  void build_writes_the_same_to_every_file_it_is_told(@TempDir Path folder) throws IOException {
    Path first = folder.resolve("deep/first.zip");
    Path second = folder.resolve("second.zip");
    Archive.main(new String[] {Corpus.FOLDER.toString(), first.toString(), second.toString()});
    assertThat(first).hasSameBinaryContentAs(second);
    assertThat(unpack(Files.readAllBytes(first))).containsOnlyKeys(FILES.keySet());
  }

  /** The jar is the Maven artifact: everything in the archive can be read from it. */
  @Test
  void jar_holds_the_contract_and_its_examples_as_resources() {
    Stream.concat(ContractFiles.FOLDERS.stream(), Stream.of("examples"))
        .forEach(
            folder ->
                FILES.keySet().stream()
                    .filter(path -> path.startsWith(folder + "/"))
                    .forEach(
                        path ->
                            assertThat(Contract.class.getResource("/evenside/contract/" + path))
                                .as(path)
                                .isNotNull()));
  }

  private static OutsideValidator outside(String kind) {
    return OutsideValidator.of(Stream.of(text("bundles/1.0/" + kind + ".schema.json")));
  }

  private static String text(String path) {
    return new String(FILES.get(path), StandardCharsets.UTF_8);
  }

  private static SortedMap<String, byte[]> unpack(byte[] archive) {
    SortedMap<String, byte[]> files = new TreeMap<>();
    try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(archive))) {
      for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
        files.put(entry.getName(), zip.readAllBytes());
      }
    } catch (IOException unreadable) {
      throw new IllegalStateException(unreadable);
    }
    return files;
  }
}
