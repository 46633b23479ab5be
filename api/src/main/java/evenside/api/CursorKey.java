package evenside.api;

import evenside.note.SigningKey;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.GeneralSecurityException;
import java.security.SecureRandom;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * The key of the cursors, 32 bytes. Replicas that share a database understand each other's cursors,
 * since each derives it from the ledger's key that all were given. Without one it is random, in
 * {@code cursor.key} of the data folder, made at the first start; so cursors outlive a restart.
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

  /** The key that follows from a key of the ledger, and tells nothing of it. */
  static byte[] from(SigningKey ledger) {
    try {
      Mac mac = Mac.getInstance("HmacSHA256");
      mac.init(new SecretKeySpec(ledger.toPem().getBytes(StandardCharsets.US_ASCII), "HmacSHA256"));
      return mac.doFinal("evenside/cursors/v1".getBytes(StandardCharsets.US_ASCII));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("every Java platform has HMAC-SHA-256", e);
    }
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
