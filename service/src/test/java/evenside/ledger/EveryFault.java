package evenside.ledger;

import evenside.store.Store;
import evenside.store.database.StoreException;
import evenside.store.database.StoreSettings;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Fails each file operation in turn, the database's and the ledger's own: the first of a run, the
 * second of the next, and so on until a run has no more. After each, a start on a sound disk must
 * find every acknowledged entry, proved, and nothing wrong.
 *
 * <p>All of them, for single failures and for a disk that stays broken: {@code mvn -q -pl service
 * -am test-compile exec:exec@program -Dprogram=evenside.ledger.EveryFault -Dargs="1"}; the argument
 * is the step from one operation to the next.
 */
final class EveryFault {
  private static final int APPENDS = 6;

  private final Map<String, Integer> failed = new TreeMap<>();
  private final List<evenside.note.SigningKey> keys = List.of(evenside.note.SigningKey.generate());

  public static void main(String[] args) throws IOException {
    int step = Integer.parseInt(args[0]);
    for (boolean forEver : new boolean[] {false, true}) {
      EveryFault every = new EveryFault();
      every.run(0, step, forEver);
      System.out.println((forEver ? "from then on: " : "once: ") + every.failed);
    }
  }

  /** How often each kind of operation was failed. */
  Map<String, Integer> failed() {
    return failed;
  }

  void run(int first, int step, boolean forEver) throws IOException {
    Path template = Files.createTempDirectory("faults");
    prepare(template);
    for (int passing = first; ; passing += step) {
      Path folder = Files.createTempDirectory("fault");
      copy(template, folder);
      Fault fault = new Fault(passing, forEver);
      one(folder, fault, passing);
      delete(folder);
      if (fault.failed().isEmpty()) {
        break;
      }
      failed.merge(fault.failed(), 1, Integer::sum);
    }
    delete(template);
  }

  /** A folder with tables and a few entries, so that each run starts there. */
  private void prepare(Path folder) {
    try (Bench bench = bench(folder, StoreSettings.inFolder(folder))) {
      bench.start();
      bench.append(2);
    }
  }

  private Bench bench(Path folder, StoreSettings where) {
    Bench bench = new Bench(folder, where);
    bench.keys = keys;
    return bench;
  }

  private void one(Path folder, Fault fault, int passing) {
    List<Bench.Acknowledged> acknowledged = new ArrayList<>();
    String url = StoreSettings.inFolder(folder).url();
    String options = url.substring(url.indexOf(';'));
    StoreSettings faulty =
        StoreSettings.at(
            FaultyDatabase.url(folder.resolve("evenside"), fault) + options, "evenside", "");
    Bench broken = bench(folder, faulty);
    broken.disk = fault.disk();
    try {
      broken.start();
      for (int i = 0; i < APPENDS; i++) {
        acknowledged.add(broken.append());
      }
    } catch (StoreException expected) {
      // What was acknowledged before is what counts.
    } finally {
      stop(broken);
    }
    try (Bench sound = bench(folder, StoreSettings.inFolder(folder))) {
      sound.start();
      String where = "after operation " + passing + " failed (" + fault.failed() + "): ";
      demand(sound.ledger.trouble().isEmpty(), where + sound.ledger.trouble());
      List<String> findings = LedgerAudit.of(sound.store, Bench.CLINIC);
      demand(findings.isEmpty(), where + findings);
      for (Bench.Acknowledged one : acknowledged) {
        demand(sound.proves(one), where + one.id() + " is not proved");
      }
      demand(sound.proves(sound.append()), where + "cannot append");
    }
  }

  private static void stop(Bench broken) {
    try {
      broken.stop();
    } catch (StoreException expected) {
      // A database that cannot write cannot close well either.
    }
    if (broken.store != null && broken.ledger != null) {
      broken.ledger.close();
    }
    if (broken.store != null) {
      closeQuietly(broken.store);
    }
  }

  private static void closeQuietly(Store store) {
    try {
      store.close();
    } catch (StoreException expected) {
      // As above.
    }
  }

  private static void copy(Path from, Path to) throws IOException {
    try (var files = Files.list(from)) {
      for (Path file : files.toList()) {
        Files.copy(file, to.resolve(file.getFileName()));
      }
    }
  }

  private static void delete(Path folder) throws IOException {
    try (var files = Files.list(folder)) {
      for (Path file : files.toList()) {
        Files.delete(file);
      }
    }
    Files.delete(folder);
  }

  private static void demand(boolean holds, String otherwise) {
    if (!holds) {
      throw new AssertionError(otherwise);
    }
  }
}
