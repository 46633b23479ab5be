package evenside.store;

import evenside.store.database.StoreSettings;
import evenside.store.evidence.EvidenceRow;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;

/**
 * A process to be killed: four threads write batteries for ever, and print the id and the hash of
 * each only after {@link Store#write} has returned.
 */
final class KilledWriter {
  private KilledWriter() {}

  public static void main(String[] args) {
    Store store = Store.open(StoreSettings.inFolder(Path.of(args[0])));
    for (int i = 0; i < 4; i++) {
      Random random = new Random();
      Thread thread = new Thread(() -> writeForEver(store, random));
      thread.start();
    }
  }

  private static void writeForEver(Store store, Random random) {
    while (true) {
      StoredBattery battery = battery(random);
      store.write(
          writing -> {
            writing.insertBattery(
                battery, List.of(EvidenceRow.of("single-hop-distance", "symmetry")));
            return battery;
          });
      // One call, so that the lines of two threads do not mix; the pipe outlives this process.
      System.out.print(battery.id() + " " + battery.contentSha256() + "\n");
    }
  }

  private static StoredBattery battery(Random random) {
    byte[] document = new byte[6000];
    random.nextBytes(document);
    StoredBattery empty = Samples.battery("c", "k-1", Samples.NOON);
    return new StoredBattery(
        "c",
        empty.id(),
        "k-1",
        empty.recordId(),
        Samples.sha256(document),
        empty.performedAt(),
        empty.receivedAt(),
        document);
  }
}
