package evenside.api;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.SecureRandom;

/**
 * The key of the cursors: 32 random bytes in {@code cursor.key} of the data folder, made at the
 * first start. Cursors then outlive a restart; processes that share a database must share the file.
 */
final class CursorKey {
  private static final int BYTES = 32;

  private CursorKey() {}

  /** A key that ends with the process. */
  static byte[] random() {
    byte[] key = new byte[BYTES];
    new SecureRandom().nextBytes(key);
    return key;
  }

  /** The key in a folder, made if it is not there. */
  static byte[] in(Path folder) {
    Path file = folder.resolve("cursor.key");
    try {
      if (!Files.exists(file)) {
        make(folder, file);
      }
      byte[] key = Files.readAllBytes(file);
      if (key.length != BYTES) {
        throw new IllegalStateException(
            file
                + " must have "
                + BYTES
                + " bytes, not "
                + key.length
                + "; delete it to get a new one");
      }
      return key;
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read or make " + file, e);
    }
  }

  /** Written aside and moved into place, so that nobody ever reads half a key. */
  private static void make(Path folder, Path file) throws IOException {
    Files.createDirectories(folder);
    Path aside = Files.createTempFile(folder, "cursor", ".new");
    try {
      if (Files.getFileStore(folder).supportsFileAttributeView("posix")) {
        Files.setPosixFilePermissions(aside, PosixFilePermissions.fromString("rw-------"));
      }
      Files.write(aside, random());
      Files.move(aside, file, StandardCopyOption.ATOMIC_MOVE);
    } catch (FileAlreadyExistsException someoneElseWasFirst) {
      Files.deleteIfExists(aside);
    }
  }
}
