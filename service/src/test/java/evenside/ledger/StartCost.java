package evenside.ledger;

import com.fasterxml.uuid.Generators;
import com.fasterxml.uuid.NoArgGenerator;
import evenside.merkle.Frontier;
import evenside.merkle.Hash;
import evenside.store.ledger.LedgerEntryRow;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

/**
 * How long the check at the start takes with a million entries, against hashing as many entries in
 * memory alone: {@code mvn -q -pl service -am test-compile exec:exec@program
 * -Dprogram=evenside.ledger.StartCost -Dargs="1000000"}.
 */
final class StartCost {
  private static final int PER_TRANSACTION = 10_000;

  private StartCost() {}

  /** Argument: number of entries. */
  public static void main(String[] args) throws Exception {
    int entries = Integer.parseInt(args[0]);
    Path folder = Files.createTempDirectory("start-cost");
    try (Bench bench = new Bench(folder).start()) {
      bench.append(1);
      fill(bench, entries);
      bench.restart();
      for (int round = 0; round < 3; round++) {
        double hashing = seconds(() -> hash(entries));
        bench.ledger.close();
        double start =
            seconds(() -> bench.ledger = Ledger.open(bench.store, bench.settings(), bench.clock));
        if (!bench.ledger.trouble().isEmpty()) {
          throw new AssertionError(bench.ledger.trouble());
        }
        System.out.printf(
            Locale.ROOT,
            "%d entries: check at the start %.1f s, %.1f times hashing alone (%.2f s)%n",
            entries,
            start,
            start / hashing,
            hashing);
      }
    }
  }

  private static double seconds(Runnable work) {
    long start = System.nanoTime();
    work.run();
    return (System.nanoTime() - start) / 1e9;
  }

  private static void hash(int entries) {
    Frontier frontier = Frontier.empty();
    byte[] entry = new byte[Entry.LENGTH];
    for (int i = 0; i < entries; i++) {
      entry[10] = (byte) i;
      frontier.append(Hash.leaf(entry));
    }
    if (frontier.root().equals(Hash.EMPTY)) {
      throw new AssertionError();
    }
  }

  /** Adds entries alone, without records. */
  private static void fill(Bench bench, int entries) {
    NoArgGenerator ids = Generators.timeBasedEpochGenerator();
    for (int done = 0; done < entries; done += PER_TRANSACTION) {
      bench.store.<Boolean>write(
          writing -> {
            LedgerEntryRow last = writing.ledger().last(Bench.CLINIC, 1).orElseThrow();
            Frontier edge =
                new StoredTree(writing.ledger(), Bench.CLINIC, 1).frontier(last.index() + 1);
            Growth growth =
                new Growth(edge, Entry.parse(last.entry()).recordedAt(), bench.clock.millis());
            for (int i = 0; i < PER_TRANSACTION; i++) {
              growth.add(NewEntry.key(ids.generate(), Hash.EMPTY));
            }
            List<LedgerEntryRow> rows = growth.rows();
            writing.ledger().append(Bench.CLINIC, 1, rows);
            return true;
          });
    }
  }
}
