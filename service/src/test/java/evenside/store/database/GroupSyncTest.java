package evenside.store.database;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(20)
class GroupSyncTest {
  private final ExecutorService threads = Executors.newCachedThreadPool();
  private final AtomicInteger syncs = new AtomicInteger();

  @AfterEach
  void stop() {
    threads.shutdownNow();
  }

  private static void commit(GroupSync group) {
    group.announce();
    group.committed();
  }

  @Test
  void eachLoneCommit_isSynced() {
    GroupSync group = new GroupSync(syncs::incrementAndGet);

    commit(group);
    commit(group);

    assertThat(syncs).hasValue(2);
  }

  @Test
  void commitDuringASync_waitsForTheNext_andSharesItWithOthers() throws Exception {
    CountDownLatch inFirst = new CountDownLatch(1);
    CountDownLatch endFirst = new CountDownLatch(1);
    GroupSync group =
        new GroupSync(
            () -> {
              if (syncs.incrementAndGet() == 1) {
                inFirst.countDown();
                await(endFirst);
              }
            });
    Future<?> first = threads.submit(() -> commit(group));
    inFirst.await();
    AtomicInteger announced = new AtomicInteger();
    List<Future<?>> others = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      others.add(
          threads.submit(
              () -> {
                announced.incrementAndGet();
                commit(group);
              }));
    }
    while (announced.get() < 20) {
      Thread.onSpinWait();
    }
    // Long enough for all twenty to be waiting; if one is late it only adds a sync, checked below.
    TimeUnit.MILLISECONDS.sleep(200);
    assertThat(others).noneMatch(Future::isDone);

    endFirst.countDown();
    first.get();
    for (Future<?> other : others) {
      other.get();
    }
    assertThat(syncs.get()).isBetween(2, 3);
  }

  /** The law: a sync that started after the commit has ended before committed() returns. */
  @Test
  void noCommitReturns_beforeASyncThatStartedAfterIt() throws Exception {
    AtomicLong written = new AtomicLong();
    AtomicLong onDisk = new AtomicLong();
    AtomicBoolean inside = new AtomicBoolean();
    GroupSync group =
        new GroupSync(
            () -> {
              assertThat(inside.compareAndSet(false, true)).as("one sync at a time").isTrue();
              long seen = written.get();
              Thread.yield();
              onDisk.set(seen);
              syncs.incrementAndGet();
              inside.set(false);
            });
    List<Future<?>> writers = new ArrayList<>();
    for (int t = 0; t < 8; t++) {
      writers.add(
          threads.submit(
              () -> {
                for (int i = 0; i < 2000; i++) {
                  group.announce();
                  long mine = written.incrementAndGet();
                  group.committed();
                  assertThat(onDisk.get()).isGreaterThanOrEqualTo(mine);
                }
              }));
    }
    for (Future<?> writer : writers) {
      writer.get();
    }
    assertThat(onDisk).hasValue(16_000);
    assertThat(syncs.get()).isLessThanOrEqualTo(16_000);
  }

  @Test
  void reader_syncsWhileACommitIsNotOnDisk_andNotAfter() {
    GroupSync group = new GroupSync(syncs::incrementAndGet);

    group.settle();
    assertThat(syncs).as("nothing was written").hasValue(0);

    group.announce();
    group.settle();
    assertThat(syncs).as("a commit may have been seen").hasValue(1);

    group.committed();
    group.settle();
    assertThat(syncs).as("the commit is on disk").hasValue(2);
  }

  @Test
  void withdrawnCommit_costsReadersNothing() {
    GroupSync group = new GroupSync(syncs::incrementAndGet);

    group.announce();
    group.withdraw();
    group.settle();

    assertThat(syncs).hasValue(0);
  }

  @Test
  void failedSync_failsEveryLaterCommit() {
    GroupSync group =
        new GroupSync(
            () -> {
              if (syncs.incrementAndGet() == 2) {
                throw new IllegalStateException("no space left");
              }
            });
    commit(group);

    for (int i = 0; i < 3; i++) {
      assertThatThrownBy(() -> commit(group))
          .isInstanceOf(StoreException.class)
          .hasMessageContaining("restart after checking the disk")
          .hasRootCauseMessage("no space left");
    }
    assertThat(syncs).as("a sync after the failed one would prove nothing").hasValue(2);
  }

  private static void await(CountDownLatch latch) {
    try {
      latch.await();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
