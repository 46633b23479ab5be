package evenside.store.ledger;

import evenside.store.database.Failures;
import evenside.store.database.StoreConflict;
import evenside.store.database.StoreConflict.Kind;
import java.util.List;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.PreparedBatch;

/** What a transaction can add to a ledger. There is no way to change or remove. */
public final class LedgerWriting extends LedgerReading {
  /** Works in the transaction of the handle. */
  public LedgerWriting(Handle handle) {
    super(handle);
  }

  /**
   * Starts a ledger.
   *
   * @throws StoreConflict {@link Kind#LEDGER_TAKEN} if the clinic has one of that number, or any
   *     clinic one of that origin
   */
  public void start(LedgerRow ledger) {
    Failures.insert(
        handle
            .createUpdate(
                "insert into ledger (clinic, number, origin, started_at)"
                    + " values (:clinic, :number, :origin, :started_at)")
            .bind("clinic", ledger.clinic())
            .bind("number", ledger.number())
            .bind("origin", ledger.origin())
            .bind("started_at", ledger.startedAt()),
        Kind.LEDGER_TAKEN);
  }

  /**
   * Waits for whoever appends to the ledger, in this process or another, and keeps others out until
   * the transaction ends. To be called first, in a transaction of {@link
   * evenside.store.Store#writeInTurn}.
   *
   * @return whether it is the newest of the clinic: none else takes entries
   */
  public boolean lock(String clinic, int ledger) {
    return handle
        .createQuery(
            """
                select number from ledger where clinic = :clinic and number = :ledger
                  and not exists (select 1 from ledger newer
                    where newer.clinic = :clinic and newer.number > :ledger)
                for update
                """)
        .bind("clinic", clinic)
        .bind("ledger", ledger)
        .mapTo(Integer.class)
        .findOne()
        .isPresent();
  }

  /** Adds entries that follow the newest one. */
  public void append(String clinic, int ledger, List<LedgerEntryRow> entries) {
    PreparedBatch batch =
        handle.prepareBatch(
            """
            insert into ledger_entry
              (clinic, ledger, entry_index, entry, nodes, entry_id, refers_to)
            values (:clinic, :ledger, :entry_index, :entry, :nodes, :entry_id, :refers_to)
            """);
    for (LedgerEntryRow entry : entries) {
      batch
          .bind("clinic", clinic)
          .bind("ledger", ledger)
          .bind("entry_index", entry.index())
          .bind("entry", entry.entry())
          .bind("nodes", entry.nodes())
          .bind("entry_id", entry.entryId())
          .bind("refers_to", entry.refersTo())
          .add();
    }
    batch.execute();
  }

  /** Adds the salts of an entry. */
  public void insertSalts(String clinic, UUID entryId, StoredSalts salts) {
    handle
        .createUpdate(
            """
            insert into ledger_salt (clinic, entry_id, document_salt, inputs_salt)
            values (:clinic, :entry_id, :document_salt, :inputs_salt)
            """)
        .bind("clinic", clinic)
        .bind("entry_id", entryId)
        .bind("document_salt", salts.document())
        .bind("inputs_salt", salts.inputs())
        .execute();
  }

  /** Adds a criteria set that decisions are made by. */
  public void insertCriteria(String clinic, String sha256, byte[] document) {
    handle
        .createUpdate(
            "insert into ledger_criteria (clinic, sha256, document)"
                + " values (:clinic, :sha256, :document)")
        .bind("clinic", clinic)
        .bind("sha256", sha256)
        .bind("document", document)
        .execute();
  }

  /** Adds a key. */
  public void insertVerifier(String clinic, int ledger, LedgerVerifierRow verifier) {
    handle
        .createUpdate(
            "insert into ledger_verifier (clinic, ledger, from_size, line)"
                + " values (:clinic, :ledger, :from_size, :line)")
        .bind("clinic", clinic)
        .bind("ledger", ledger)
        .bind("from_size", verifier.fromSize())
        .bind("line", verifier.line())
        .execute();
  }

  /** Files a signed checkpoint, unless another process filed one of that size. */
  public void file(String clinic, int ledger, long size, String note) {
    handle
        .createUpdate(
            """
            insert into ledger_checkpoint (clinic, ledger, tree_size, note)
            values (:clinic, :ledger, :tree_size, :note) on conflict do nothing
            """)
        .bind("clinic", clinic)
        .bind("ledger", ledger)
        .bind("tree_size", size)
        .bind("note", note)
        .execute();
  }
}
