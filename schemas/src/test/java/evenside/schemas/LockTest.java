package evenside.schemas;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.util.Map;
import java.util.SortedMap;
import org.junit.jupiter.api.Test;

/**
 * A published file never changes. If a test here fails after a change that is meant, and the
 * version is not yet released, run {@code mvn -pl schemas test-compile exec:java@publish}.
 */
class LockTest {

  private static final SortedMap<String, byte[]> FILES = ContractFiles.in(Corpus.FOLDER);

  @Test
  void lock_lists_exactly_the_published_files() throws IOException {
    assertThat(locked().sha256ByPath()).isEqualTo(Lock.of(FILES).sha256ByPath());
  }

  @Test
  void one_changed_byte_is_noticed_in_every_file() throws IOException {
    Lock lock = locked();
    for (Map.Entry<String, byte[]> file : FILES.entrySet()) {
      assertThatCode(() -> lock.check(file.getKey(), file.getValue())).doesNotThrowAnyException();
      byte[] changed = file.getValue().clone();
      changed[changed.length / 2] ^= 1;
      assertThatThrownBy(() -> lock.check(file.getKey(), changed))
          .isInstanceOf(IllegalStateException.class)
          .hasMessageContaining(file.getKey());
    }
  }

  @Test
  void file_that_was_never_published_is_refused() throws IOException {
    Lock lock = locked();
    assertThatThrownBy(() -> lock.check("v1/new.schema.json", new byte[0]))
        .hasMessageContaining("v1/new.schema.json");
  }

  /** SHA-256 of "abc" from FIPS 180-4's examples, in the form {@code sha256sum -c} reads. */
  @Test
  void line_is_what_sha256sum_reads() {
    SortedMap<String, byte[]> abc =
        new java.util.TreeMap<>(Map.of("v1/abc.json", "abc".getBytes(StandardCharsets.UTF_8)));
    assertThat(new String(Lock.of(abc).text(), StandardCharsets.UTF_8))
        .isEqualTo(
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad  v1/abc.json\n");
    assertThat(Lock.parse(Lock.of(abc).text())).isEqualTo(Lock.of(abc));
  }

  @Test
  void line_of_another_form_is_refused() {
    byte[] text = "ba7816bf v1/abc.json\n".getBytes(StandardCharsets.UTF_8);
    assertThatThrownBy(() -> Lock.parse(text)).hasMessageContaining("ba7816bf");
  }

  private static Lock locked() throws IOException {
    return Lock.parse(Files.readAllBytes(Corpus.FOLDER.resolve(Lock.FILE)));
  }
}
