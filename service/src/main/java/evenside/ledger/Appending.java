package evenside.ledger;

import evenside.merkle.Hash;
import evenside.store.Writing;
import evenside.store.ledger.LedgerWriting;
import java.util.NoSuchElementException;
import java.util.OptionalLong;
import java.util.Set;
import java.util.UUID;
import java.util.function.Supplier;

/**
 * What work may do when its turn to append has come: write records, and add entries to the ledger
 * in the same transaction. Valid inside the work only.
 */
public final class Appending {
  private final Writing writing;
  private final Target target;
  private OptionalLong last = OptionalLong.empty();

  private Appending(Writing writing, Target target) {
    this.writing = writing;
    this.target = target;
  }

  /** Where the entries go. */
  private interface Target {
    OptionalLong add(NewEntry entry);

    boolean holds(UUID entryId);
  }

  /** For a ledger that is off: entries go nowhere. */
  static Appending nowhere(Writing writing, String clinic) {
    return new Appending(
        writing,
        new Target() {
          @Override
          public OptionalLong add(NewEntry entry) {
            return OptionalLong.empty();
          }

          @Override
          public boolean holds(UUID entryId) {
            return writing.ledger().place(clinic, entryId).isPresent();
          }
        });
  }

  /**
   * For a ledger that grows.
   *
   * @param known criteria sets that are in the ledger already
   * @param ids makes the id of an entry for a criteria set
   */
  static Appending to(
      Growth growth, Writing writing, String clinic, Set<Hash> known, Supplier<UUID> ids) {
    return new Appending(
        writing,
        new Target() {
          @Override
          public OptionalLong add(NewEntry entry) {
            criteria(entry, growth, writing.ledger(), clinic, known, ids);
            entry
                .salts()
                .ifPresent(salts -> writing.ledger().insertSalts(clinic, entry.id(), salts));
            return OptionalLong.of(growth.add(entry));
          }

          @Override
          public boolean holds(UUID entryId) {
            return growth.adds(entryId) || writing.ledger().place(clinic, entryId).isPresent();
          }
        });
  }

  /** The first decision by a criteria set enters the set before itself, and keeps its bytes. */
  private static void criteria(
      NewEntry entry,
      Growth growth,
      LedgerWriting rows,
      String clinic,
      Set<Hash> known,
      Supplier<UUID> ids) {
    Hash sha256 = entry.criteria();
    if (entry.criteriaDocument().isEmpty()
        || known.contains(sha256)
        || growth.addsCriteria(sha256)
        || rows.criteria(clinic, sha256.hex()).isPresent()) {
      return;
    }
    byte[] document = entry.criteriaDocument().orElseThrow(NoSuchElementException::new);
    rows.insertCriteria(clinic, sha256.hex(), document);
    if (entry.type() != EntryType.CRITERIA_SET) {
      growth.add(NewEntry.criteriaSet(ids.get(), document));
    }
  }

  /** The records. */
  public Writing writing() {
    return writing;
  }

  /** Adds an entry. */
  public void add(NewEntry entry) {
    OptionalLong index = target.add(entry);
    if (index.isPresent()) {
      last = index;
    }
  }

  /**
   * Whether the ledger has an entry of that id, or gets it in this turn: entries of others that
   * have their turn with this one are not in the table yet.
   */
  public boolean holds(UUID entryId) {
    return target.holds(entryId);
  }

  OptionalLong last() {
    return last;
  }
}
