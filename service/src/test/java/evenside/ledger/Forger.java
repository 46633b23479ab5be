package evenside.ledger;

import evenside.merkle.Frontier;
import evenside.merkle.Hash;
import evenside.store.Writing;
import evenside.store.ledger.LedgerEntryRow;
import java.lang.reflect.Field;
import java.sql.SQLException;
import java.util.HexFormat;
import java.util.List;
import org.jdbi.v3.core.Handle;

/** Someone with all rights on the database who knows how a ledger is built. */
final class Forger {
  private Forger() {}

  /** Gives the last entry another commitment, and stores the hashes that then are right. */
  static void forgeLast(Bench bench) throws SQLException {
    List<LedgerEntryRow> rows =
        bench.store.read(reading -> reading.ledger().entries(Bench.CLINIC, 1, 0, 100));
    Frontier frontier = Frontier.empty();
    rows.subList(0, rows.size() - 1).forEach(row -> frontier.append(Hash.leaf(row.entry())));
    LedgerEntryRow last = rows.get(rows.size() - 1);
    byte[] forged = last.entry();
    forged[80] ^= 1;
    byte[] nodes = StoredTree.joined(frontier.append(Hash.leaf(forged)));
    bench.tamper(
        "update ledger_entry set entry = X'%s', nodes = X'%s' where entry_index = %d"
            .formatted(
                HexFormat.of().formatHex(forged), HexFormat.of().formatHex(nodes), last.index()));
  }

  static void dropLast(Writing writing) {
    try {
      Field handle = Class.forName("evenside.store.Reading").getDeclaredField("handle");
      handle.setAccessible(true);
      ((Handle) handle.get(writing))
          .execute(
              "delete from ledger_entry where entry_index ="
                  + " (select max(entry_index) from ledger_entry)");
    } catch (ReflectiveOperationException e) {
      throw new AssertionError(e);
    }
  }
}
