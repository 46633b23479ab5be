package evenside.store.work;

import static evenside.store.Samples.NOON;
import static evenside.store.Samples.newClinic;
import static evenside.store.Samples.newId;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.store.Store;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.CountDownLatch;
import java.util.function.Function;
import org.junit.jupiter.api.Test;

/** What holds for the queue of announcements in every database. */
abstract class OutboxContract {
  private static final Duration LEASE = Duration.ofMinutes(1);

  private final String clinic = newClinic();

  abstract Store store();

  private <T> T outbox(Function<Outbox, T> work) {
    return store().writeInTurn(writing -> work.apply(writing.outbox()));
  }

  private UUID add(String caseId, Instant decidedAt) {
    UUID decision = newId();
    return outbox(
        outbox -> {
          outbox.add(clinic, newId(), caseId, decision, decidedAt);
          return decision;
        });
  }

  private Optional<OutboxEvent> take(Instant now) {
    return outbox(outbox -> outbox.take(clinic, now, now.plus(LEASE)));
  }

  private List<UUID> giveUp(String of, Instant before, int most) {
    return outbox(outbox -> outbox.giveUp(of, before, most));
  }

  private void delivered(OutboxEvent event) {
    outbox(
        outbox -> {
          outbox.delivered(event);
          return true;
        });
  }

  @Test
  void event_comesBackAsAdded_andGoesWhenDelivered() {
    UUID decision = add("k-1", NOON);
    OutboxEvent event = take(NOON).orElseThrow();
    assertThat(event.decisionId()).isEqualTo(decision);
    assertThat(event.caseId()).isEqualTo("k-1");
    assertThat(event.decidedAt()).isEqualTo(NOON);
    assertThat(event.attempts()).isEqualTo(1);
    delivered(event);
    assertThat(take(NOON.plus(LEASE).plusSeconds(1))).isEmpty();
    long waiting = outbox(outbox -> outbox.waiting(clinic));
    assertThat(waiting).isZero();
  }

  @Test
  void eventsOfACase_comeOneAfterTheOther_andDoNotWaitForOtherCases() {
    UUID first = add("k-1", NOON);
    UUID second = add("k-1", NOON);
    UUID other = add("k-2", NOON);
    OutboxEvent taken = take(NOON).orElseThrow();
    assertThat(taken.decisionId()).isEqualTo(first);
    assertThat(take(NOON).orElseThrow().decisionId()).isEqualTo(other);
    assertThat(take(NOON)).as("the second of a case waits for the first").isEmpty();
    delivered(taken);
    OutboxEvent next = take(NOON).orElseThrow();
    assertThat(next.decisionId()).isEqualTo(second);
    assertThat(next.position()).isGreaterThan(taken.position());
  }

  @Test
  void eventOfWhoDied_comesAgainWhenItsTimeIsOver_underTheSameId() {
    add("k-1", NOON);
    OutboxEvent first = take(NOON).orElseThrow();
    assertThat(take(NOON.plus(LEASE).minusSeconds(1))).isEmpty();
    OutboxEvent again = take(NOON.plus(LEASE)).orElseThrow();
    assertThat(again.id()).isEqualTo(first.id());
    assertThat(again.attempts()).isEqualTo(2);
  }

  @Test
  void postponedEvent_waits() {
    add("k-1", NOON);
    OutboxEvent event = take(NOON).orElseThrow();
    outbox(
        outbox -> {
          outbox.postpone(event, NOON.plusSeconds(5));
          return true;
        });
    assertThat(take(NOON.plusSeconds(4))).isEmpty();
    assertThat(take(NOON.plusSeconds(5))).isPresent();
  }

  @Test
  void tooOldAndTooMany_areGivenUp_oldestFirst() {
    UUID old = add("k-1", NOON.minus(Duration.ofDays(8)));
    UUID second = add("k-2", NOON);
    UUID third = add("k-3", NOON);
    Instant before = NOON.minus(Duration.ofDays(7));
    assertThat(giveUp(clinic, before, 10)).containsExactly(old);
    assertThat(giveUp(clinic, before, 2)).isEmpty();
    assertThat(giveUp(clinic, before, 1)).containsExactly(second);
    assertThat(take(NOON).orElseThrow().decisionId()).isEqualTo(third);
  }

  @Test
  void anotherClinic_hasAQueueOfItsOwn() {
    add("k-1", NOON);
    String other = newClinic();
    Optional<OutboxEvent> none = outbox(outbox -> outbox.take(other, NOON, NOON.plus(LEASE)));
    assertThat(none).isEmpty();
    assertThat(giveUp(other, NOON.plusSeconds(1), 0)).isEmpty();
    assertThat(take(NOON)).isPresent();
  }

  @Test
  void erasedCase_isNotAnnouncedAnyMore() {
    add("k-1", NOON);
    UUID kept = add("k-2", NOON);
    store()
        .write(
            writing -> {
              writing.erasing().eraseCase(clinic, "k-1");
              return true;
            });
    assertThat(take(NOON).orElseThrow().decisionId()).isEqualTo(kept);
    assertThat(take(NOON)).isEmpty();
  }

  /** Eight takers at once, as eight replicas would be: each event is taken once. */
  @Test
  void manyTakers_takeEachEventOnce() throws InterruptedException {
    for (int i = 0; i < 40; i++) {
      add("k-" + i, NOON);
    }
    List<UUID> taken = Collections.synchronizedList(new ArrayList<>());
    CountDownLatch together = new CountDownLatch(1);
    List<Thread> takers = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      Thread taker = new Thread(() -> takeAll(together, taken));
      taker.start();
      takers.add(taker);
    }
    together.countDown();
    for (Thread taker : takers) {
      taker.join();
    }
    Optional<OutboxEvent> left = take(NOON);
    while (left.isPresent()) {
      taken.add(left.get().id());
      left = take(NOON);
    }
    assertThat(taken).hasSize(40).doesNotHaveDuplicates();
  }

  private void takeAll(CountDownLatch together, List<UUID> taken) {
    try {
      together.await();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return;
    }
    Optional<OutboxEvent> event = take(NOON);
    while (event.isPresent()) {
      taken.add(event.get().id());
      event = take(NOON);
    }
  }
}
