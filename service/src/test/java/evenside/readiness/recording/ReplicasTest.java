package evenside.readiness.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.ledger.LedgerAudit;
import evenside.note.SigningKey;
import evenside.readiness.Jobs;
import evenside.readiness.ProvenRecord;
import evenside.store.PostgresServer;
import evenside.store.database.StoreException;
import evenside.store.database.StoreSettings;
import evenside.store.work.JobCount;
import evenside.store.work.JobLine;
import evenside.store.work.JobResult;
import evenside.store.work.StoredJob;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** Three services over one PostgreSQL server, each with connections and threads of its own. */
class ReplicasTest {
  private static final int REPLICAS = 3;

  @TempDir private static Path folder;
  private static PostgresServer server;
  private static final List<ProvenRecord> ALL = new ArrayList<>();

  @BeforeAll
  static void start() throws Exception {
    server = PostgresServer.start();
    StoreSettings where = server.settings().allowingWeakDurability();
    SigningKey key = SigningKey.generate();
    for (int i = 0; i < REPLICAS; i++) {
      ALL.add(new ProvenRecord(Files.createDirectory(folder.resolve("r" + i)), where, key));
    }
  }

  @AfterAll
  static void stop() {
    ALL.forEach(ProvenRecord::close);
    server.close();
  }

  private static ProvenRecord replica(int number) {
    return ALL.get(number % REPLICAS);
  }

  @Test
  void hundredEqualRequests_makeOneDecision_oneEntry_andEqualReplies() throws Exception {
    replica(0).putCase("same");
    replica(1).addBattery("same");
    replica(2).putCase("first");
    long before = entries();
    JsonNode request =
        ProvenRecord.json(
            "{'schemaVersion':'1.0','criteriaSet':{'id':'delaware-oslo','version':'2020.1'},"
                + "'asOf':'2026-11-20'}");
    Optional<IdempotencyKey> key = Optional.of(new IdempotencyKey("once", "0".repeat(64)));
    List<Recorded> replies =
        atOnce(
            100,
            i -> replica(i).service.decisions().decide(ProvenRecord.CLINIC, "same", request, key));
    assertThat(replies).hasSize(100);
    assertThat(replies.stream().map(Recorded::id).distinct()).hasSize(1);
    assertThat(replies.stream().map(one -> one.document().sha256()).distinct()).hasSize(1);
    assertThat(replies.stream().filter(one -> one.novelty() == Recorded.Novelty.CREATED))
        .hasSize(1);
    assertThat(replies.stream().map(one -> one.receipt().orElseThrow().index()).distinct())
        .hasSize(1);
    // The decision; before it, once, the key and the criteria set.
    assertThat(entries() - before).isIn(1L, before == 0 ? 3L : 1L);
    assertThat(
            replica(2)
                .service
                .decisions()
                .ofCase(ProvenRecord.CLINIC, "same", Optional.empty(), 10)
                .items())
        .hasSize(1);
  }

  @Test
  void oneRecordId_sentToAllAtOnce_isOneBattery() throws Exception {
    replica(0).putCase("twin");
    JsonNode battery = ProvenRecord.battery().put("recordId", "day-1");
    List<Recorded> replies =
        atOnce(
            30,
            i ->
                replica(i)
                    .service
                    .batteries()
                    .add(ProvenRecord.CLINIC, "twin", battery, Optional.empty()));
    assertThat(replies.stream().map(Recorded::id).distinct()).hasSize(1);
  }

  @Test
  void decisionsOnAllReplicas_areOneUnbrokenLedger() throws Exception {
    replica(0).putCase("many");
    replica(0).addBattery("many");
    replica(1).decide("many");
    long before = entries();
    List<Recorded> made = atOnce(60, i -> replica(i).decide("many"));
    List<Long> indexes =
        made.stream().map(one -> one.receipt().orElseThrow().index()).sorted().toList();
    assertThat(indexes).doesNotHaveDuplicates().hasSize(60);
    assertThat(entries() - before).isEqualTo(60L);
    for (ProvenRecord each : ALL) {
      assertThat(each.ledger.trouble()).isEmpty();
      assertThat(each.service.decisions().receipt(ProvenRecord.CLINIC, made.get(0).id()))
          .isPresent();
    }
    assertThat(LedgerAudit.of(replica(1).store, ProvenRecord.CLINIC)).isEmpty();
  }

  @Test
  void job_isTakenByOneReplicaAtATime_andRemovedWhenItExpires() {
    Jobs one = replica(0).service.jobs();
    Jobs other = replica(1).service.jobs();
    UUID id = one.newId();
    byte[] line = {'{', '}'};
    one.keep(
        ProvenRecord.CLINIC,
        id,
        List.of(new JobLine(1, Optional.of("a"), line), new JobLine(3, Optional.of("b"), line)),
        List.of(new JobResult(2, 422, line)));
    assertThat(one.unfinished()).as("not all there yet").isEmpty();
    StoredJob job = one.start(ProvenRecord.CLINIC, id, "client", "records:write", 3);
    UUID me = UUID.randomUUID();
    UUID you = UUID.randomUUID();
    Duration hour = Duration.ofHours(1);
    assertThat(one.take(job, me, hour, 1).orElseThrow()).hasSize(1);
    assertThat(other.take(job, you, hour, 1)).as("the other has the turn").isEmpty();
    one.finish(job, List.of(new JobResult(1, 201, line)));
    assertThat(other.progress(ProvenRecord.CLINIC, id.toString()).count())
        .isEqualTo(new JobCount(1, 1, 1));
    Instant now = replica(1).now;
    try {
      replica(1).now = now.plus(hour).plusSeconds(1);
      assertThat(other.take(job, you, hour, 5).orElseThrow()).hasSize(1);
      other.finish(job, List.of(new JobResult(3, 201, line)));
      one.finish(job, List.of(new JobResult(3, 201, line)));
      assertThat(one.results(ProvenRecord.CLINIC, id.toString(), 1, 9))
          .extracting(JobResult::line)
          .containsExactly(2, 3);
      assertThat(other.removeExpired()).isZero();
      replica(1).now = now.plus(Jobs.KEPT).plusSeconds(1);
      assertThat(other.removeExpired()).isEqualTo(1);
      assertThatThrownBy(() -> one.progress(ProvenRecord.CLINIC, id.toString()))
          .isInstanceOf(Refused.class);
    } finally {
      replica(1).now = now;
    }
  }

  private static long entries() {
    return replica(0)
        .store
        .read(
            reading ->
                reading
                    .ledger()
                    .last(ProvenRecord.CLINIC, 1)
                    .map(row -> row.index() + 1)
                    .orElse(0L));
  }

  /** Work on one of the replicas. */
  private interface Work {
    Recorded on(int number);
  }

  /** As a client does after a 503: the same again. */
  private static Recorded again(Work work, int number) throws InterruptedException {
    for (int attempt = 1; ; attempt++) {
      try {
        return work.on(number);
      } catch (StoreException busy) {
        if (attempt == 5) {
          throw busy;
        }
        Thread.sleep(1000);
      }
    }
  }

  private static List<Recorded> atOnce(int count, Work work) throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(count);
    CountDownLatch start = new CountDownLatch(1);
    try {
      List<Future<Recorded>> futures = new ArrayList<>();
      for (int i = 0; i < count; i++) {
        int number = i;
        Callable<Recorded> one =
            () -> {
              start.await();
              return again(work, number);
            };
        futures.add(pool.submit(one));
      }
      start.countDown();
      List<Recorded> all = new ArrayList<>();
      for (Future<Recorded> future : futures) {
        all.add(future.get());
      }
      return all;
    } finally {
      pool.shutdownNow();
    }
  }
}
