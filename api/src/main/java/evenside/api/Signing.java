package evenside.api;

import evenside.ledger.KeyFiles;
import evenside.ledger.Ledger;
import evenside.ledger.LedgerSettings;
import evenside.note.SigningKey;
import evenside.store.Store;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;

/**
 * Who signs the ledger. An embedded record gets a key of its own once, in the data folder; a
 * database server, which other processes may share, needs one that is named: without, the ledger is
 * off.
 *
 * @param name start of the names of the ledgers
 * @param key the key file, if it is named
 */
record Signing(String name, Optional<Path> key) {
  /**
   * Opens the ledgers.
   *
   * @param folder holds the checkpoints, and the key unless another is named
   * @param embedded whether the record is in the same folder
   */
  Ledger open(Store store, Path folder, boolean embedded) {
    Optional<LedgerSettings> settings = settings(store, folder, embedded);
    return settings
        .map(how -> Ledger.open(store, how, InstantSource.system()))
        .orElseGet(() -> Ledger.off(store));
  }

  /** The key of the cursors: of the named key, else of the folder. */
  byte[] cursorKey(Path folder) {
    return key.map(file -> CursorKey.from(KeyFiles.read(file)))
        .orElseGet(() -> CursorKey.in(folder));
  }

  /**
   * Whether the key is still where the next start will look for it: without, nothing could be
   * signed then. A ledger that is off needs none.
   *
   * @param id of the key that signs now, {@link #keyId}
   */
  boolean keyInPlace(Path folder, boolean embedded, String id) {
    return keyId(folder, embedded).equals(id);
  }

  /** Tells the key in its place from others; empty if the ledger is off. */
  String keyId(Path folder, boolean embedded) {
    if (key.isPresent()) {
      return KeyFiles.read(key.get()).verifier(name).line();
    }
    if (!embedded) {
      return "";
    }
    List<SigningKey> keys = LedgerSettings.inFolder(folder, name).keys();
    return keys.get(keys.size() - 1).verifier(name).line();
  }

  private Optional<LedgerSettings> settings(Store store, Path folder, boolean embedded) {
    if (key.isPresent()) {
      return Optional.of(LedgerSettings.signedBy(key.get(), made(folder), name));
    }
    if (!embedded) {
      return Optional.empty();
    }
    boolean signed = !store.read(reading -> reading.ledger().all()).isEmpty();
    return Optional.of(LedgerSettings.inOwnFolder(folder, name, signed));
  }

  /** The folder of the checkpoints of a replica, which has nothing else in it at first. */
  private static Path made(Path folder) {
    try {
      return Files.createDirectories(folder);
    } catch (IOException e) {
      throw new UncheckedIOException("cannot make the folder " + folder, e);
    }
  }
}
