package evenside.ledger;

import evenside.note.SigningKey;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/**
 * A process to be killed: eight threads append for ever, and print the id and the index of each
 * entry only after it was acknowledged.
 */
final class KilledAppender {
  private static final int THREADS = 8;

  private KilledAppender() {}

  public static void main(String[] args) throws Exception {
    Path folder = Path.of(args[0]);
    Bench bench = new Bench(folder);
    bench.keys = List.of(SigningKey.ofPem(Files.readString(folder.resolve("key.pem"))));
    bench.start();
    for (int i = 0; i < THREADS; i++) {
      new Thread(() -> appendForEver(bench)).start();
    }
  }

  private static void appendForEver(Bench bench) {
    while (true) {
      Bench.Acknowledged done = bench.append();
      // One call, so that the lines of two threads do not mix; the pipe outlives this process.
      System.out.print(done.id() + " %012d\n".formatted(done.receipt().index()));
    }
  }
}
