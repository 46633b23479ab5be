package evenside.ledger;

import evenside.note.SigningKey;
import evenside.store.ledger.LedgerRow;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Who signs, under which name, and where the checkpoints are kept beside the database.
 *
 * @param folder holds one checkpoint file per ledger; of this process alone
 * @param name start of the name of every ledger; the clinic follows after a slash
 * @param keys the key that signs, last; before it those that sign along while verifiers change over
 */
public record LedgerSettings(Path folder, String name, List<SigningKey> keys) {
  /** The name of a service that was given none. */
  public static final String DEFAULT_NAME = "ledger.evenside.example";

  private static final Logger LOG = LoggerFactory.getLogger(LedgerSettings.class);
  private static final String KEY = "ledger.key";
  private static final String PREVIOUS_KEY = "ledger-previous.key";

  /** Checks that there is a key. */
  public LedgerSettings {
    keys = List.copyOf(keys);
    if (keys.isEmpty()) {
      throw new IllegalArgumentException("a ledger needs a key");
    }
    keys.get(0).verifier(name);
  }

  /** The key file of a data folder. */
  public static Path keyIn(Path folder) {
    return folder.resolve(KEY);
  }

  /**
   * The ledger of a data folder, with its {@code ledger.key}, which must be there.
   *
   * @throws LedgerRefusal if there is no key, or it cannot be read
   */
  public static LedgerSettings inFolder(Path folder, String name) {
    return signedBy(keyIn(folder), folder, name);
  }

  /**
   * The ledger of a key that is named, and of the {@code ledger-previous.key} beside it while that
   * is there.
   *
   * @param folder of the checkpoints
   * @throws LedgerRefusal if there is no key, or it cannot be read
   */
  public static LedgerSettings signedBy(Path key, Path folder, String name) {
    List<SigningKey> keys = new ArrayList<>();
    Path previous = key.resolveSibling(PREVIOUS_KEY);
    if (Files.exists(previous)) {
      keys.add(KeyFiles.read(previous));
    }
    keys.add(KeyFiles.read(key));
    return new LedgerSettings(folder, name, keys);
  }

  /**
   * The ledger of the data folder of an embedded store. A key is made once, when a folder has
   * neither a key nor any checkpoint, and the record no ledger; the log says so. Lost keys are not
   * replaced: that would be a key nobody has pinned.
   *
   * @param signed whether the record has a ledger, as one that was restored has before its key is
   *     put beside it
   * @throws LedgerRefusal if the key is gone from a folder that has checkpoints or ledgers
   */
  public static LedgerSettings inOwnFolder(Path folder, String name, boolean signed) {
    Path key = keyIn(folder);
    if (!Files.exists(key)) {
      if (signed || hasCheckpoints(folder) || Files.exists(folder.resolve(PREVIOUS_KEY))) {
        throw new LedgerRefusal(
            "the key file "
                + key
                + " is gone, but checkpoints were signed: bring it back, or if it is lost, replace"
                + " it by the command ledger-key replace --lost");
      }
      String id = KeyFiles.create(key).verifier(name).id();
      LOG.warn("made a new key for the ledger: {} (id {}); keep a copy apart", key, id);
    }
    return inFolder(folder, name);
  }

  private static boolean hasCheckpoints(Path folder) {
    try (var files = Files.list(folder)) {
      return files.anyMatch(file -> file.toString().endsWith(CheckpointFiles.SUFFIX));
    } catch (java.io.IOException e) {
      throw new LedgerRefusal("cannot read the ledger folder " + folder, e);
    }
  }

  /**
   * Makes a new key in a folder. The service must be stopped; from the next start on both keys
   * sign, until the previous one's file is removed.
   *
   * @return the new key
   * @throws LedgerRefusal if the overlap before has not ended
   */
  public static SigningKey rotate(Path folder) {
    return rotate(folder, Disk.REAL);
  }

  static SigningKey rotate(Path folder, Disk disk) {
    Path key = keyIn(folder);
    Path previous = folder.resolve(PREVIOUS_KEY);
    // Without a key but with a previous one, an earlier rotation was interrupted; this ends it.
    if (Files.exists(key) || !Files.exists(previous)) {
      KeyFiles.read(key);
      demandNoOverlap(key);
      KeyFiles.retire(key, previous, disk);
    }
    return KeyFiles.create(key, disk);
  }

  /**
   * Demands that the overlap of a rotation has ended.
   *
   * @param key file of the key
   * @throws LedgerRefusal if the key before is still beside it
   */
  static void demandNoOverlap(Path key) {
    Path previous = key.resolveSibling(PREVIOUS_KEY);
    if (Files.exists(previous)) {
      throw new LedgerRefusal(
          "the key before is still there; remove it first, its overlap ends then: " + previous);
    }
  }

  /**
   * Demands that a ledger has the name that it would be given.
   *
   * @param name start of the names of the ledgers
   * @throws LedgerRefusal if it has another
   */
  static void demandName(String name, LedgerRow row) {
    String made = origin(name, row.clinic(), row.number());
    if (!row.origin().equals(made)) {
      throw new LedgerRefusal(
          "the ledger is called %s, but the name in use makes it %s".formatted(row.origin(), made));
    }
  }

  /** The key that signs. */
  SigningKey key() {
    return keys.get(keys.size() - 1);
  }

  /** Name of a ledger: that of the service, the clinic, and from the second ledger on a number. */
  String origin(String clinic, int number) {
    return origin(name, clinic, number);
  }

  private static String origin(String name, String clinic, int number) {
    return name + "/" + clinic + (number == 1 ? "" : "/" + number);
  }

  @Override
  public String toString() {
    return "LedgerSettings[" + folder + ", " + name + ", keys=" + keys.size() + "]";
  }
}
