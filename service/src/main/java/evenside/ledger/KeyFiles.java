package evenside.ledger;

import evenside.note.SigningKey;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Set;

/** Private keys in files that only their owner may read (PKCS#8, PEM, mode 0600). */
public final class KeyFiles {
  private static final boolean POSIX =
      FileSystems.getDefault().supportedFileAttributeViews().contains("posix");

  private KeyFiles() {}

  /**
   * Reads a key.
   *
   * @throws LedgerRefusal if there is none, or others than the owner may read it
   */
  public static SigningKey read(Path file) {
    try {
      if (POSIX) {
        refuseOpenToOthers(file);
      }
      return SigningKey.ofPem(Files.readString(file));
    } catch (NoSuchFileException missing) {
      throw new LedgerRefusal("there is no key file " + file, missing);
    } catch (IOException | IllegalArgumentException e) {
      throw new LedgerRefusal("cannot read the key file " + file + ": " + e.getMessage(), e);
    }
  }

  private static void refuseOpenToOthers(Path file) throws IOException {
    Set<PosixFilePermission> allowed = Files.getPosixFilePermissions(file);
    for (PosixFilePermission permission : allowed) {
      if (!permission.name().startsWith("OWNER")) {
        throw new LedgerRefusal(
            "others may read the key file " + file + ": give it mode 0600, and a new key");
      }
    }
  }

  /**
   * Makes a new key in a new file, synced.
   *
   * @throws LedgerRefusal if the file is there already, or cannot be written
   */
  public static SigningKey create(Path file) {
    return create(file, Disk.REAL);
  }

  static SigningKey create(Path file, Disk disk) {
    SigningKey key = SigningKey.generate();
    // A key half written would be taken for a broken one, so it gets its name when it is whole.
    Path part = file.resolveSibling(file.getFileName() + ".part");
    try {
      if (Files.exists(file)) {
        throw new LedgerRefusal("there is a key file already: " + file);
      }
      Files.deleteIfExists(part);
      Set<StandardOpenOption> options =
          Set.of(StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
      try (FileChannel channel = FileChannel.open(part, options, ownerOnly())) {
        disk.write(channel, key.toPem().getBytes(StandardCharsets.US_ASCII), 0);
        disk.sync(channel);
      }
      disk.rename(part, file);
      disk.syncName(file);
      return key;
    } catch (IOException e) {
      throw new LedgerRefusal("cannot write the key file " + file + ": " + e.getMessage(), e);
    }
  }

  private static FileAttribute<?>[] ownerOnly() {
    return POSIX
        ? new FileAttribute<?>[] {
          PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"))
        }
        : new FileAttribute<?>[0];
  }

  /** Moves a key out of the way of a new one, keeping it for the overlap. */
  static void retire(Path file, Path previous, Disk disk) {
    try {
      disk.rename(file, previous);
      disk.syncName(file);
    } catch (IOException e) {
      throw new LedgerRefusal("cannot move the key file " + file + ": " + e.getMessage(), e);
    }
  }

  /**
   * Puts a new key in the place of one that others may know; that gets the ending {@code
   * .compromised} and its id, so that nothing signs with it by mistake. Ends what was broken off.
   */
  static void replace(Path file, Path next) {
    try {
      if (Files.exists(file)) {
        String id = read(file).verifier(LedgerSettings.DEFAULT_NAME).id();
        Path old = file.resolveSibling(file.getFileName() + ".compromised-" + id);
        Disk.REAL.rename(file, old);
      }
      Disk.REAL.rename(next, file);
      Disk.REAL.syncName(file);
    } catch (IOException e) {
      throw new LedgerRefusal("cannot replace the key file " + file + ": " + e.getMessage(), e);
    }
  }
}
