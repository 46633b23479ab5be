package evenside.store;

import static evenside.store.Samples.NOON;
import static evenside.store.Samples.battery;
import static evenside.store.Samples.criteriaSet;
import static evenside.store.Samples.decision;
import static evenside.store.Samples.kneeCase;
import static evenside.store.Samples.newClinic;
import static evenside.store.Samples.newId;
import static evenside.store.Samples.remembered;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowable;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import evenside.store.database.StoreConflict;
import evenside.store.database.StoreConflict.Kind;
import evenside.store.database.StoreException;
import evenside.store.database.StoreSettings;
import evenside.store.evidence.EvidenceQuery;
import evenside.store.evidence.EvidenceRow;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** What holds for records in every database. Each test has a clinic of its own. */
abstract class RecordsContract {
  private final String clinic = newClinic();

  abstract Store store();

  /** Settings of that store, to open it once more. */
  abstract StoreSettings settings();

  private <T> Optional<T> find(Function<Reading, Optional<T>> question) {
    return store().read(question);
  }

  private <T> List<T> list(Function<Reading, List<T>> question) {
    return store().read(question);
  }

  private int count(Function<Reading, Integer> question) {
    return store().read(question);
  }

  private void write(Consumer<Writing> work) {
    store()
        .write(
            writing -> {
              work.accept(writing);
              return writing;
            });
  }

  private Kind conflict(Consumer<Writing> work) {
    return catchThrowableOfType(StoreConflict.class, () -> write(work)).kind();
  }

  @Test
  void case_comesBackAsWrittenInItsNewestRevision() {
    StoredCase second = kneeCase(clinic, "k-1", 2);
    write(w -> w.cases().insert(kneeCase(clinic, "k-1", 1)));
    write(w -> w.cases().insert(second));
    write(w -> w.cases().insert(kneeCase(clinic, "k-2", 7)));

    Optional<StoredCase> found = store().read(r -> r.latestCase(clinic, "k-1"));

    assertThat(found).get().usingRecursiveComparison().isEqualTo(second);
    assertThat(find(r -> r.latestCase(clinic, "k-3"))).isEmpty();
  }

  @Test
  void case_revisionIsTakenOnce() {
    write(w -> w.cases().insert(kneeCase(clinic, "k-1", 1)));

    assertThat(conflict(w -> w.cases().insert(kneeCase(clinic, "k-1", 1))))
        .isEqualTo(Kind.CASE_REVISION_TAKEN);
  }

  @Test
  void battery_comesBackAsWritten() {
    StoredBattery written = battery(clinic, "k-1", NOON, Optional.of("r-1"));
    write(
        w -> w.insertBattery(written, List.of(EvidenceRow.of("single-hop-distance", "symmetry"))));

    assertThat(find(r -> r.battery(clinic, written.id())))
        .get()
        .usingRecursiveComparison()
        .isEqualTo(written);
    assertThat(find(r -> r.batteryByRecordId(clinic, "r-1")))
        .get()
        .usingRecursiveComparison()
        .isEqualTo(written);
    assertThat(find(r -> r.batteryByRecordId(clinic, "r-2"))).isEmpty();
  }

  @Test
  void battery_recordIdIsTakenOncePerClinic() {
    write(w -> w.insertBattery(battery(clinic, "k-1", NOON, Optional.of("r-1")), List.of()));
    String other = newClinic();
    write(w -> w.insertBattery(battery(other, "k-1", NOON, Optional.of("r-1")), List.of()));

    assertThat(
            conflict(
                w -> w.insertBattery(battery(clinic, "k-2", NOON, Optional.of("r-1")), List.of())))
        .isEqualTo(Kind.RECORD_ID_TAKEN);
  }

  @Test
  void battery_withoutRecordIdMayCome_anyNumberOfTimes() {
    write(w -> w.insertBattery(battery(clinic, "k-1", NOON), List.of()));
    write(w -> w.insertBattery(battery(clinic, "k-1", NOON), List.of()));

    assertThat(count(r -> r.countBatteries(clinic, "k-1", NOON, NOON))).isEqualTo(2);
  }

  @Test
  void document_ofManyMegabytes_comesBackByteForByte() {
    byte[] large = new byte[5_000_000];
    new Random(20260302).nextBytes(large);
    StoredBattery small = battery(clinic, "k-1", NOON);
    StoredBattery written =
        new StoredBattery(
            clinic, small.id(), "k-1", Optional.empty(), small.contentSha256(), NOON, NOON, large);
    write(w -> w.insertBattery(written, List.of()));

    assertThat(find(r -> r.battery(clinic, small.id())).orElseThrow().document()).isEqualTo(large);
  }

  @Test
  void decision_comesBackAsWritten() {
    StoredDecision written = decision(clinic, "k-1", NOON);
    write(w -> w.insertDecision(written));

    assertThat(find(r -> r.decision(clinic, written.id())))
        .get()
        .usingRecursiveComparison()
        .isEqualTo(written);
  }

  @Test
  void criteriaSet_comesBackAsWritten_andItsVersionIsTakenOnce() {
    StoredCriteriaSet first = criteriaSet(clinic, "own", "1.0");
    write(w -> w.insertCriteriaSet(first));
    write(w -> w.insertCriteriaSet(criteriaSet(clinic, "own", "1.1")));

    assertThat(find(r -> r.criteriaSet(clinic, "own", "1.0")))
        .get()
        .usingRecursiveComparison()
        .isEqualTo(first);
    assertThat(list(r -> r.criteriaSets(clinic)))
        .extracting(StoredCriteriaSet::version)
        .containsExactly("1.0", "1.1");
    assertThat(conflict(w -> w.insertCriteriaSet(first))).isEqualTo(Kind.CRITERIA_SET_TAKEN);
  }

  @Test
  void remembered_comesBackAsWritten_andItsKeyIsTakenOncePerClinic() {
    Remembered first = remembered(clinic, "key-1", newId());
    write(w -> w.remember(first));
    write(w -> w.remember(remembered(newClinic(), "key-1", newId())));

    assertThat(find(r -> r.remembered(clinic, "key-1"))).contains(first);
    assertThat(conflict(w -> w.remember(remembered(clinic, "key-1", newId()))))
        .isEqualTo(Kind.ALREADY_REMEMBERED);
  }

  @Test
  void rowsOfAnotherClinic_areNotThere() {
    String other = newClinic();
    StoredBattery battery = battery(other, "k-1", NOON, Optional.of("r-1"));
    StoredDecision decision = decision(other, "k-1", NOON);
    write(
        w -> {
          w.remember(remembered(other, "key-1", battery.id()));
          w.cases().insert(kneeCase(other, "k-1", 1));
          w.insertBattery(battery, List.of(EvidenceRow.of("body-mass", "value")));
          w.insertDecision(decision);
          w.insertCriteriaSet(criteriaSet(other, "own", "1.0"));
        });

    store()
        .read(
            r -> {
              assertThat(r.latestCase(clinic, "k-1")).isEmpty();
              assertThat(r.battery(clinic, battery.id())).isEmpty();
              assertThat(r.batteryByRecordId(clinic, "r-1")).isEmpty();
              assertThat(r.batteries(clinic, "k-1", Optional.empty(), 10)).isEmpty();
              assertThat(r.newestBattery(clinic, "k-1", NOON)).isEmpty();
              assertThat(r.countBatteries(clinic, "k-1", NOON, NOON)).isZero();
              assertThat(
                      r.evidence(clinic, "k-1")
                          .newest(EvidenceQuery.of("body-mass", "value", NOON)))
                  .isEmpty();
              assertThat(r.decision(clinic, decision.id())).isEmpty();
              assertThat(r.decisions(clinic, DecisionFilter.ALL, Optional.empty(), 10)).isEmpty();
              assertThat(r.remembered(clinic, "key-1")).isEmpty();
              assertThat(r.criteriaSet(clinic, "own", "1.0")).isEmpty();
              assertThat(r.criteriaSets(clinic)).isEmpty();
              return r;
            });
  }

  @Test
  void workThatThrows_leavesNothing() {
    assertThatThrownBy(
            () ->
                write(
                    w -> {
                      w.cases().insert(kneeCase(clinic, "k-1", 1));
                      throw new IllegalStateException("changed my mind");
                    }))
        .isInstanceOf(IllegalStateException.class)
        .hasMessage("changed my mind");

    assertThat(find(r -> r.latestCase(clinic, "k-1"))).isEmpty();
  }

  @Test
  void refusedRow_isExplainedWithoutItsContent() {
    StoredCase tooLong = kneeCase(clinic, "k".repeat(65), 1);

    assertThatThrownBy(() -> write(w -> w.cases().insert(tooLong)))
        .isExactlyInstanceOf(StoreException.class)
        .hasMessageNotContaining("revision\":");
  }

  @Test
  void transaction_seesOneStateOfAllTables() {
    write(w -> w.cases().insert(kneeCase(clinic, "k-1", 1)));

    store()
        .read(
            r -> {
              assertThat(r.latestCase(clinic, "k-1").orElseThrow().revision()).isEqualTo(1);
              inAnotherThread(
                  () -> {
                    write(
                        w -> {
                          w.cases().insert(kneeCase(clinic, "k-1", 2));
                          w.insertBattery(battery(clinic, "k-1", NOON), List.of());
                        });
                    return true;
                  });
              assertThat(r.latestCase(clinic, "k-1").orElseThrow().revision()).isEqualTo(1);
              assertThat(r.newestBattery(clinic, "k-1", NOON)).isEmpty();
              return r;
            });

    assertThat(find(r -> r.newestBattery(clinic, "k-1", NOON))).isPresent();
  }

  @Test
  void requestInFlight_makesAnEqualOneBusy_ifItTakesTooLong() {
    try (Store other = Store.open(settings())) {
      write(
          w -> {
            w.remember(remembered(clinic, "key-1", newId()));
            Throwable met = inAnotherThread(() -> catchThrowable(() -> rememberBriefly(other)));
            assertThat(met)
                .isInstanceOfSatisfying(
                    StoreConflict.class, e -> assertThat(e.kind()).isEqualTo(Kind.BUSY));
          });
    }
    assertThat(find(r -> r.remembered(clinic, "key-1"))).isPresent();
  }

  private void rememberBriefly(Store other) {
    other.write(
        w -> {
          w.handle.execute("set lock_timeout = 100");
          w.remember(remembered(clinic, "key-1", newId()));
          return w;
        });
  }

  @Test
  void hundredEqualRequestsAtOnce_makeOneRecord() throws Exception {
    CountDownLatch start = new CountDownLatch(1);
    ExecutorService threads = Executors.newFixedThreadPool(100);
    try {
      List<Future<UUID>> answers =
          IntStream.range(0, 100).mapToObj(i -> threads.submit(() -> recordOnce(start))).toList();
      start.countDown();
      UUID first = answers.get(0).get();
      for (Future<UUID> answer : answers) {
        assertThat(answer.get()).isEqualTo(first);
      }
    } finally {
      threads.shutdownNow();
    }
    assertThat(count(r -> r.countBatteries(clinic, "k-1", NOON, NOON))).isEqualTo(1);
  }

  /** As a caller does it: remember first, and where that is taken, answer as the first did. */
  private UUID recordOnce(CountDownLatch start) throws InterruptedException {
    start.await();
    StoredBattery battery = battery(clinic, "k-1", NOON);
    try {
      write(
          w -> {
            w.remember(remembered(clinic, "key-1", battery.id()));
            w.insertBattery(battery, List.of());
          });
      return battery.id();
    } catch (StoreConflict e) {
      assertThat(e.kind()).isEqualTo(Kind.ALREADY_REMEMBERED);
      return UUID.fromString(
          store().read(r -> r.remembered(clinic, "key-1")).orElseThrow().recordId());
    }
  }

  private static <T> T inAnotherThread(Callable<T> work) {
    ExecutorService thread = Executors.newSingleThreadExecutor();
    try {
      return thread.submit(work).get();
    } catch (InterruptedException | ExecutionException e) {
      throw new AssertionError(e);
    } finally {
      thread.shutdownNow();
    }
  }
}
