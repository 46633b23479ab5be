package evenside.ledger;

import evenside.merkle.InclusionProof;
import evenside.note.Checkpoint;
import evenside.note.SigningKey;
import evenside.store.Victim;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.UUID;

/**
 * Kills a process at random while eight threads append, again and again on one folder, and demands
 * after each kill that every acknowledged entry is there, at its index, provable, and none twice.
 *
 * <p>Twenty kills during ten thousand appends, some minutes: {@code mvn -q -pl service -am
 * test-compile exec:exec@program -Dprogram=evenside.ledger.Kills -Dargs="20 500"}
 */
final class Kills {
  private final Path folder;
  private final SigningKey key = SigningKey.generate();
  private final Random random = new Random();
  private final Map<UUID, Long> acknowledged = new LinkedHashMap<>();

  Kills(Path folder) throws IOException {
    this.folder = folder;
    Files.writeString(folder.resolve("key.pem"), key.toPem());
  }

  /** Arguments: number of kills, appends between two on average. */
  public static void main(String[] args) throws Exception {
    Kills kills = new Kills(Files.createTempDirectory("kills"));
    for (int i = 0; i < Integer.parseInt(args[0]); i++) {
      kills.once(Integer.parseInt(args[1]));
      System.out.println(kills.acknowledged.size() + " acknowledged, all there");
    }
  }

  int acknowledged() {
    return acknowledged.size();
  }

  void once(int appends) throws Exception {
    kill(appends / 2 + random.nextInt(appends));
    demandAll();
  }

  private void kill(int after) throws Exception {
    try (Victim appender = Victim.start(KilledAppender.class, folder)) {
      appender.killAfter(
          after,
          36 + 1 + 12,
          line ->
              acknowledged.put(
                  UUID.fromString(line.substring(0, 36)), Long.parseLong(line.substring(37))));
    }
  }

  private void demandAll() {
    try (Bench bench = new Bench(folder)) {
      bench.keys = List.of(key);
      bench.start();
      demand(bench.ledger.trouble().isEmpty(), bench.ledger.trouble().toString());
      List<String> findings = LedgerAudit.of(bench.store, Bench.CLINIC);
      demand(findings.isEmpty(), findings.toString());
      demand(
          new HashSet<>(acknowledged.values()).size() == acknowledged.size(),
          "an index was given twice");
      acknowledged.forEach((id, index) -> demandProved(bench, id, index));
    }
  }

  private static void demandProved(Bench bench, UUID id, long index) {
    Proofs.Proved proved = bench.ledger.proofs(Bench.CLINIC).proof(id).orElseThrow();
    TlogProof proof = proved.proof();
    boolean holds =
        proof.index() == index
            && proof.checkpoint().isSignedBy(bench.key())
            && InclusionProof.verifies(
                proved.entry().hash(),
                index,
                proof.hashes(),
                Checkpoint.parse(proof.checkpoint().text()).head());
    demand(holds, id + " at " + index + " is not proved");
  }

  private static void demand(boolean holds, String otherwise) {
    if (!holds) {
      throw new AssertionError(otherwise);
    }
  }
}
