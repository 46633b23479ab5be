package evenside.ledger;

import com.fasterxml.uuid.Generators;
import com.fasterxml.uuid.NoArgGenerator;
import evenside.note.SigningKey;
import evenside.store.Store;
import evenside.store.StoredDecision;
import evenside.store.database.StoreSettings;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Consumer;

/**
 * What the ledger adds to a durable insert of a decision (12 kB, inputs of 8 kB), at 1 and at 32
 * clients, each measured against the plain insert in the same run: {@code mvn -q -pl service -am
 * test-compile exec:exec@program -Dprogram=evenside.ledger.AppendCost}. Arguments: a JDBC URL, user
 * and password for another database than H2 in a new folder. Prints ratios of medians; the aim is
 * at most 1.25 at 32 clients.
 */
final class AppendCost {
  private static final int ROUNDS = 7;
  private static final long ROUND_MS = 1500;

  private final Store store;
  private final Ledger ledger;
  private final NoArgGenerator ids = Generators.timeBasedEpochGenerator();
  private final byte[] document = random(12_000);
  private final byte[] inputs = random(8_000);
  private final byte[] criteria = random(4_000);

  private AppendCost(Store store, Ledger ledger) {
    this.store = store;
    this.ledger = ledger;
  }

  public static void main(String[] args) throws Exception {
    Path folder = Files.createTempDirectory("append-cost");
    StoreSettings where =
        args.length == 3
            ? StoreSettings.at(args[0], args[1], args[2])
            : StoreSettings.inFolder(folder);
    LedgerSettings settings =
        new LedgerSettings(folder, LedgerSettings.DEFAULT_NAME, List.of(SigningKey.generate()));
    try (Store store = Store.open(where);
        Ledger ledger = Ledger.open(store, settings, InstantSource.system())) {
      AppendCost cost = new AppendCost(store, ledger);
      for (int clients : new int[] {1, 32}) {
        cost.compare(clients);
      }
    }
  }

  private void compare(int clients) throws Exception {
    run(clients, this::plain);
    run(clients, this::appended);
    List<Double> plain = new ArrayList<>();
    List<Double> appended = new ArrayList<>();
    for (int round = 0; round < ROUNDS; round++) {
      plain.add(run(clients, this::plain));
      appended.add(run(clients, this::appended));
    }
    System.out.printf(
        Locale.ROOT,
        "%d clients: plain %.0f/s, with ledger %.0f/s, cost ratio %.2f%n",
        clients,
        median(plain),
        median(appended),
        median(plain) / median(appended));
  }

  private double run(int clients, Consumer<StoredDecision> write) throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(clients);
    long end = System.nanoTime() + ROUND_MS * 1_000_000;
    List<Future<Integer>> done = new ArrayList<>();
    long start = System.nanoTime();
    for (int i = 0; i < clients; i++) {
      done.add(
          pool.submit(
              () -> {
                int count = 0;
                while (System.nanoTime() < end) {
                  write.accept(decision());
                  count++;
                }
                return count;
              }));
    }
    int all = 0;
    for (Future<Integer> one : done) {
      all += one.get();
    }
    pool.shutdown();
    return all / ((System.nanoTime() - start) / 1e9);
  }

  private void plain(StoredDecision decision) {
    store.write(
        writing -> {
          writing.insertDecision(decision);
          return true;
        });
  }

  private void appended(StoredDecision decision) {
    NewEntry entry = NewEntry.decision(decision.id(), criteria, document, inputs);
    ledger.append(
        "c",
        appending -> {
          appending.writing().insertDecision(decision);
          appending.add(entry);
          return true;
        });
  }

  private StoredDecision decision() {
    return new StoredDecision(
        "c",
        ids.generate(),
        "k-1",
        "a-set",
        "1",
        "0".repeat(64),
        "return-to-competition",
        "not-met",
        LocalDate.parse("2026-03-02"),
        Instant.now(),
        document,
        inputs);
  }

  private static byte[] random(int length) {
    byte[] bytes = new byte[length];
    new Random(length).nextBytes(bytes);
    return bytes;
  }

  private static double median(List<Double> values) {
    double[] sorted = values.stream().mapToDouble(Double::doubleValue).toArray();
    Arrays.sort(sorted);
    return sorted[sorted.length / 2];
  }
}
