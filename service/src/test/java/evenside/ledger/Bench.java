package evenside.ledger;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.fasterxml.uuid.Generators;
import com.fasterxml.uuid.NoArgGenerator;
import evenside.merkle.Hash;
import evenside.merkle.InclusionProof;
import evenside.merkle.TreeHead;
import evenside.note.Checkpoint;
import evenside.note.SignedNote;
import evenside.note.SigningKey;
import evenside.note.VerifierKey;
import evenside.store.Store;
import evenside.store.StoredDecision;
import evenside.store.database.StoreSettings;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;

/**
 * An H2 store and a ledger on it, with invented decisions, that can be stopped and tampered with.
 */
final class Bench implements AutoCloseable {
  static final String CLINIC = "c";
  static final byte[] CRITERIA = "{\"id\":\"a-set\",\"version\":\"1\"}".getBytes(UTF_8);

  private static final NoArgGenerator IDS = Generators.timeBasedEpochGenerator();

  final Path folder;
  final StoreSettings where;
  List<SigningKey> keys = List.of(SigningKey.generate());
  InstantSource clock = InstantSource.system();
  Disk disk = Disk.REAL;
  Store store;
  Ledger ledger;

  Bench(Path folder) {
    this(folder, StoreSettings.inFolder(folder));
  }

  Bench(Path folder, StoreSettings where) {
    this.folder = folder;
    this.where = where;
  }

  Bench start() {
    store = Store.open(where);
    ledger = Ledger.open(store, settings(), clock, disk);
    return this;
  }

  LedgerSettings settings() {
    return new LedgerSettings(folder, LedgerSettings.DEFAULT_NAME, keys);
  }

  void stop() {
    if (ledger != null) {
      ledger.close();
      store.close();
    }
  }

  void restart() {
    stop();
    start();
  }

  @Override
  public void close() {
    stop();
  }

  VerifierKey key() {
    return keys.get(keys.size() - 1).verifier(LedgerSettings.DEFAULT_NAME + "/" + CLINIC);
  }

  /** What was acknowledged. */
  record Acknowledged(UUID id, Receipt receipt) {}

  Acknowledged append() {
    return append(CLINIC);
  }

  Acknowledged append(String clinic) {
    UUID id = IDS.generate();
    byte[] document = ("{\"decisionId\":\"" + id + "\"}").getBytes(UTF_8);
    byte[] inputs = ("{\"inputs\":\"" + id + "\"}").getBytes(UTF_8);
    NewEntry entry = NewEntry.decision(id, CRITERIA, document, inputs);
    Appended<UUID> appended =
        ledger.append(
            clinic,
            appending -> {
              appending.writing().insertDecision(decision(clinic, id, document, inputs));
              appending.add(entry);
              return id;
            });
    return new Acknowledged(id, appended.receipt().orElseThrow());
  }

  static StoredDecision decision(String clinic, UUID id, byte[] document, byte[] inputs) {
    return new StoredDecision(
        clinic,
        id,
        "k-1",
        "a-set",
        "1",
        Hash.sha256(CRITERIA).hex(),
        "return-to-competition",
        "not-met",
        LocalDate.parse("2026-03-02"),
        Instant.now(),
        document,
        inputs);
  }

  void append(int count) {
    for (int i = 0; i < count; i++) {
      append();
    }
  }

  /** Whether the ledger proves the record now, and under the head that was acknowledged. */
  boolean proves(Acknowledged acknowledged) {
    Proofs proofs = ledger.proofs(CLINIC);
    Proofs.Proved proved = proofs.proof(acknowledged.id()).orElse(null);
    if (proved == null || proved.proof().index() != acknowledged.receipt().index()) {
      return false;
    }
    SignedNote now = proved.proof().checkpoint();
    TreeHead head = Checkpoint.parse(now.text()).head();
    TreeHead then =
        Checkpoint.parse(SignedNote.parse(acknowledged.receipt().checkpoint()).text()).head();
    return now.isSignedBy(key())
        && InclusionProof.verifies(
            proved.entry().hash(), proved.proof().index(), proved.proof().hashes(), head)
        && evenside.merkle.ConsistencyProof.verifies(
            then, head, proofs.consistency(then.size(), head.size()).orElseThrow());
  }

  /** Changes the stopped database behind the program's back. */
  void tamper(String... statements) throws SQLException {
    stop();
    try (Connection connection =
            DriverManager.getConnection(where.url(), where.user(), where.password());
        Statement statement = connection.createStatement()) {
      for (String one : statements) {
        if (statement.executeUpdate(one) == 0) {
          throw new AssertionError("changed nothing: " + one);
        }
      }
    }
  }
}
