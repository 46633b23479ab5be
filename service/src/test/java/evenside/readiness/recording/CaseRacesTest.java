package evenside.readiness.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.ledger.LedgerAudit;
import evenside.note.SigningKey;
import evenside.readiness.Jobs;
import evenside.readiness.ProvenRecord;
import evenside.store.PostgresServer;
import evenside.store.work.JobLine;
import evenside.store.work.JobResult;
import evenside.store.work.StoredJob;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.node.ObjectNode;

/**
 * A case that is erased or changed while records on it come in. What must hold follows from what
 * erasing promises (decision 38 of the developers' map): nothing comes back, and no loss looks like
 * an erasure or the other way round.
 */
@Timeout(120)
class CaseRacesTest {
  private static final String CLINIC = ProvenRecord.CLINIC;

  @TempDir private Path folder;

  private final ExecutorService clients = Executors.newCachedThreadPool();

  /** What was acknowledged: the use case that finds it, by its id. */
  private final Map<String, Callable<Object>> acknowledged = new ConcurrentHashMap<>();

  @Test
  void erasure_inTheTurnOfADecision_isOfThatDecisionToo() throws Exception {
    try (ProvenRecord record = new ProvenRecord(folder)) {
      record.putCase("gone");
      record.addBattery("gone");
      record.decide("gone");
      List<Recorded> decided = new ArrayList<>();
      inOneTurn(record, () -> decided.add(record.decide("gone")), () -> erase(record, "gone"));

      assertThat(LedgerAudit.of(record.store, CLINIC)).isEmpty();
      assertThatThrownBy(() -> record.service.decisions().get(CLINIC, decided.get(0).id()))
          .isInstanceOfSatisfying(
              Refused.class, refused -> assertThat(refused.refusal()).isEqualTo(Refusal.ERASED));
    }
  }

  /** Of two requests with one key, both looked at before either is written, one gets through. */
  @Test
  void workThatFailsInATurn_leavesTheWorkBesideItAsItIs() throws Exception {
    try (ProvenRecord record = new ProvenRecord(folder)) {
      for (String caseId : List.of("one", "two")) {
        record.putCase(caseId);
        record.addBattery(caseId);
        record.decide(caseId);
      }
      List<Recorded> decided = Collections.synchronizedList(new ArrayList<>());
      Optional<IdempotencyKey> key = Optional.of(new IdempotencyKey("key", "0".repeat(64)));
      inOneTurn(
          record,
          () -> decided.add(record.decide("one", key)),
          () -> decided.add(record.decide("two")),
          () -> decided.add(record.decide("one", key)),
          () -> decided.add(record.decide("two")));

      assertThat(decided).hasSize(4).allMatch(one -> one.receipt().isPresent());
      assertThat(decided.stream().map(Recorded::id).distinct()).hasSize(3);
      assertThat(record.service.decisions().ofCase(CLINIC, "one", Optional.empty(), 9).items())
          .hasSize(2);
      assertThat(record.service.decisions().ofCase(CLINIC, "two", Optional.empty(), 9).items())
          .hasSize(3);
      assertThat(LedgerAudit.of(record.store, CLINIC)).isEmpty();
    }
  }

  /** Has the ledger do several things in one turn, in this order: they queue while it is held. */
  private void inOneTurn(ProvenRecord record, Runnable... works) throws Exception {
    CountDownLatch waiting = new CountDownLatch(1);
    CountDownLatch go = new CountDownLatch(1);
    Future<?> before =
        clients.submit(
            () ->
                record.ledger.append(
                    CLINIC,
                    appending -> {
                      waiting.countDown();
                      await(go);
                      return true;
                    }));
    waiting.await();
    List<Thread> threads = new ArrayList<>();
    for (Runnable work : works) {
      threads.add(inTheQueue(work));
    }
    go.countDown();
    before.get();
    for (Thread thread : threads) {
      thread.join();
    }
  }

  /** Starts a thread and waits until it stands in the queue of the ledger. */
  private static Thread inTheQueue(Runnable work) throws InterruptedException {
    Thread thread = new Thread(work);
    thread.start();
    int still = 0;
    while (still < 20) {
      Thread.sleep(10);
      still = thread.getState() == Thread.State.WAITING ? still + 1 : 0;
    }
    return thread;
  }

  private static void await(CountDownLatch latch) {
    try {
      latch.await();
    } catch (InterruptedException e) {
      throw new AssertionError(e);
    }
  }

  @Test
  void records_thatComeInDuringTheErasure_areErasedOrRefused() throws Exception {
    try (ProvenRecord record = new ProvenRecord(folder)) {
      for (int round = 0; round < 25; round++) {
        erasedAmongOthers(record, "gone-" + round);
      }
    }
  }

  @Test
  void records_thatComeInDuringTheErasure_areErasedOrRefusedOnPostgres() throws Exception {
    try (PostgresServer server = PostgresServer.start();
        ProvenRecord record =
            new ProvenRecord(
                folder, server.settings().allowingWeakDurability(), SigningKey.generate())) {
      for (int round = 0; round < 10; round++) {
        erasedAmongOthers(record, "gone-" + round);
      }
    }
  }

  private void erasedAmongOthers(ProvenRecord record, String caseId) throws Exception {
    record.putCase(caseId);
    record.addBattery(caseId);
    CyclicBarrier start = new CyclicBarrier(9);
    List<Future<?>> others = new ArrayList<>();
    for (int i = 0; i < 2; i++) {
      others.add(
          client(
              start,
              () -> record.addBattery(caseId),
              id -> record.service.batteries().get(CLINIC, id)));
      others.add(
          client(
              start,
              () -> record.decide(caseId),
              id -> record.service.decisions().get(CLINIC, id)));
      others.add(
          client(
              start,
              () ->
                  record
                      .service
                      .plans()
                      .adopt(
                          CLINIC,
                          caseId,
                          ProvenRecord.example("adopted-plan/smallest"),
                          Optional.empty()),
              id -> record.service.plans().get(CLINIC, id)));
      others.add(
          client(
              start,
              () -> record.service.sessions().add(CLINIC, caseId, session(), Optional.empty()),
              id -> record.service.sessions().get(CLINIC, id)));
    }
    start.await();
    Thread.sleep(acknowledged.size() % 5);
    erase(record, caseId);
    for (Future<?> other : others) {
      other.get();
    }
    acknowledged.forEach(
        (id, find) -> assertThatThrownBy(find::call).as(id).isInstanceOf(Refused.class));
    acknowledged.clear();
    assertThat(LedgerAudit.of(record.store, CLINIC)).isEmpty();
  }

  private interface Find {
    Object by(String id);
  }

  /** A client that records one thing, or is told that there is no such case. */
  private Future<?> client(CyclicBarrier start, Callable<Recorded> work, Find find) {
    return clients.submit(
        () -> {
          start.await();
          try {
            String id = work.call().id();
            acknowledged.put(id, () -> find.by(id));
          } catch (Refused refused) {
            assertThat(refused.refusal()).isEqualTo(Refusal.NOT_FOUND);
          }
          return null;
        });
  }

  private static ObjectNode session() {
    ObjectNode session = ProvenRecord.example("session/first-run");
    session.remove("recordId");
    return session;
  }

  /** A job was accepted before; what it says of the case is part of what was erased. */
  @Test
  void lineOfAJobInHand_bringsNothingOfAnErasedCaseBack() {
    try (ProvenRecord record = new ProvenRecord(folder)) {
      Jobs jobs = record.service.jobs();
      UUID id = jobs.newId();
      JobLine first = new JobLine(1, Optional.of("kept"), new byte[0]);
      JobLine second = new JobLine(2, Optional.of("gone"), new byte[0]);
      jobs.keep(CLINIC, id, List.of(first, second), List.of());
      StoredJob job = jobs.start(CLINIC, id, "client", "", 2);
      assertThat(jobs.take(job, UUID.randomUUID(), Duration.ofSeconds(20), 10).orElseThrow())
          .hasSize(2);
      record.putCase("gone");
      erase(record, "gone");

      putFromLine(record, id, 1, "kept");
      assertThatThrownBy(() -> putFromLine(record, id, 2, "gone"))
          .isInstanceOfSatisfying(
              Refused.class, refused -> assertThat(refused.refusal()).isEqualTo(Refusal.NOT_FOUND));
      jobs.finish(
          job, List.of(new JobResult(1, 201, new byte[0]), new JobResult(2, 201, new byte[0])));

      assertThat(jobs.results(CLINIC, id.toString(), 0, 10))
          .extracting(JobResult::line)
          .containsExactly(1);
      assertThat(record.service.cases().get(CLINIC, "kept").bytes()).isNotEmpty();
      assertThatThrownBy(() -> record.service.cases().get(CLINIC, "gone"))
          .isInstanceOf(Refused.class);
    }
  }

  private static void putFromLine(ProvenRecord record, UUID job, int line, String caseId) {
    record
        .service
        .grouped()
        .ofLine(CLINIC, job, line)
        .cases()
        .put(CLINIC, caseId, ProvenRecord.example("case/minimal"), Optional.empty());
  }

  private static void erase(ProvenRecord record, String caseId) {
    ObjectNode request = ProvenRecord.example("erasure-request/everything").put("caseId", caseId);
    record.service.erasures().erase(CLINIC, request, Optional.empty());
  }

  /** Else a battery would stand in a case that says the other side was operated. */
  @Test
  void side_turnedWhileABatteryComesIn_neverContradictsIt() throws Exception {
    try (ProvenRecord record = new ProvenRecord(folder)) {
      ObjectNode left = ProvenRecord.example("case/minimal").put("operatedSide", "left");
      for (int round = 0; round < 60; round++) {
        String caseId = "turned-" + round;
        String seen =
            record.service.cases().put(CLINIC, caseId, left, Optional.empty()).document().sha256();
        CyclicBarrier start = new CyclicBarrier(2);
        Future<Boolean> battery = done(start, () -> record.addBattery(caseId));
        Future<Boolean> turn =
            done(
                start,
                () ->
                    record
                        .service
                        .cases()
                        .put(
                            CLINIC,
                            caseId,
                            left.deepCopy().put("operatedSide", "right"),
                            Optional.of(seen)));
        assertThat(List.of(battery.get(), turn.get())).containsExactlyInAnyOrder(true, false);
      }
    }
  }

  private Future<Boolean> done(CyclicBarrier start, Callable<Recorded> work) {
    return clients.submit(
        () -> {
          start.await();
          try {
            work.call();
            return true;
          } catch (Refused refused) {
            return false;
          }
        });
  }
}
