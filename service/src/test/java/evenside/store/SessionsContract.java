package evenside.store;

import static evenside.store.Samples.NOON;
import static evenside.store.Samples.content;
import static evenside.store.Samples.newClinic;
import static evenside.store.Samples.newId;
import static evenside.store.Samples.session;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import evenside.store.database.StoreConflict;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import org.junit.jupiter.api.Test;

/** What holds for entries of training records in every database. */
abstract class SessionsContract {
  private final String clinic = newClinic();

  abstract Store store();

  private Optional<StoredSession> find(Function<SessionSearch, Optional<StoredSession>> question) {
    return store().read(reading -> question.apply(reading.sessions(clinic)));
  }

  private <T> List<T> ask(Function<SessionSearch, List<T>> question) {
    return store().read(reading -> question.apply(reading.sessions(clinic)));
  }

  private StoredSession add(StoredSession session) {
    store()
        .write(
            writing -> {
              writing.insertSession(session, content(session));
              return session;
            });
    return session;
  }

  private StoredSession add(int day, boolean flagged) {
    Instant at = NOON.plus(Duration.ofDays(day));
    return add(session(clinic, "k-1", at, Optional.empty(), flagged));
  }

  private static List<UUID> ids(List<StoredSession> sessions) {
    return sessions.stream().map(StoredSession::id).toList();
  }

  private List<UUID> sent(Function<SessionSearch, List<SentEntry>> question) {
    return ask(question).stream().map(SentEntry::id).toList();
  }

  @Test
  void session_comesBackAsWritten() {
    StoredSession written = add(session(clinic, "k-1", NOON, Optional.of("r-1"), true));
    assertThat(find(s -> s.byId(written.id())).orElseThrow())
        .usingRecursiveComparison()
        .isEqualTo(written);
    assertThat(find(s -> s.byRecordId("r-1")).orElseThrow().id()).isEqualTo(written.id());
    assertThat(find(s -> s.byId(newId()))).isEmpty();
    assertThat(find(s -> s.byRecordId("r-2"))).isEmpty();
  }

  @Test
  void entry_asItWasSent_comesWithoutTheAnswer() {
    StoredSession written = add(session(clinic, "k-1", NOON, Optional.of("r-1"), true));
    for (SentEntry sent :
        List.of(
            entry(s -> s.sentById(written.id())),
            entry(s -> s.sentByRecordId("r-1")),
            ask(s -> s.between("k-1", NOON, NOON, 1)).get(0),
            ask(s -> s.flagged("k-1", NOON, 1)).get(0))) {
      assertThat(sent.content()).isEqualTo(content(written));
      assertThat(sent.contentSha256()).isEqualTo(written.contentSha256());
    }
    StoredSession other = session(newClinic(), "k-1", NOON, Optional.of("r-2"), true);
    add(other);
    assertThat(ask(s -> s.sentById(other.id()).stream().toList())).isEmpty();
    assertThat(ask(s -> s.sentByRecordId("r-2").stream().toList())).isEmpty();
  }

  private SentEntry entry(Function<SessionSearch, Optional<SentEntry>> question) {
    return store().read(reading -> question.apply(reading.sessions(clinic))).orElseThrow();
  }

  @Test
  void newest_isLookedForUpToATime() {
    add(0, false);
    StoredSession second = add(1, false);
    StoredSession third = add(2, true);
    assertThat(newest(third.performedAt())).contains(third.performedAt());
    assertThat(newest(third.performedAt().minusSeconds(1))).contains(second.performedAt());
    assertThat(newest(NOON.minusSeconds(1))).isEmpty();
  }

  private Optional<Instant> newest(Instant to) {
    return store().read(reading -> reading.sessions(clinic).newest("k-1", to));
  }

  @Test
  void recordId_isTakenOncePerClinic() {
    add(session(clinic, "k-1", NOON, Optional.of("r-1")));
    StoreConflict conflict =
        catchThrowableOfType(
            StoreConflict.class, () -> add(session(clinic, "k-2", NOON, Optional.of("r-1"))));
    assertThat(conflict.kind()).isEqualTo(StoreConflict.Kind.RECORD_ID_TAKEN);
    add(session(newClinic(), "k-1", NOON, Optional.of("r-1")));
  }

  @Test
  void session_ofAnotherClinic_isNotThere() {
    StoredSession other = session(newClinic(), "k-1", NOON, Optional.of("r-9"), true);
    add(other);
    assertThat(find(s -> s.byId(other.id()))).isEmpty();
    assertThat(find(s -> s.byRecordId("r-9"))).isEmpty();
    assertThat(ask(s -> s.page("k-1", Optional.empty(), 5))).isEmpty();
    assertThat(ask(s -> s.flagged("k-1", NOON, 5))).isEmpty();
  }

  @Test
  void pages_goNewestFirst_andNeitherSkipNorRepeat() {
    List<UUID> newestFirst = new ArrayList<>();
    for (int day = 0; day < 7; day++) {
      newestFirst.add(0, add(day, false).id());
    }
    List<UUID> seen = new ArrayList<>();
    Optional<Position> after = Optional.empty();
    while (true) {
      Optional<Position> from = after;
      List<StoredSession> page = ask(s -> s.page("k-1", from, 3));
      if (page.isEmpty()) {
        break;
      }
      seen.addAll(ids(page));
      after = Optional.of(page.get(page.size() - 1).position());
    }
    assertThat(seen).isEqualTo(newestFirst);
  }

  @Test
  void between_holdsBothEnds_andGivesTheNewest() {
    List<StoredSession> all = new ArrayList<>();
    for (int day = 0; day < 5; day++) {
      all.add(add(day, false));
    }
    Instant from = all.get(1).performedAt();
    Instant to = all.get(3).performedAt();
    assertThat(sent(s -> s.between("k-1", from, to, 10)))
        .containsExactly(all.get(3).id(), all.get(2).id(), all.get(1).id());
    assertThat(sent(s -> s.between("k-1", from, to, 2)))
        .containsExactly(all.get(3).id(), all.get(2).id());
  }

  @Test
  void flagged_givesThoseAlone() {
    StoredSession first = add(0, true);
    add(1, false);
    StoredSession third = add(2, true);
    add(3, true);
    assertThat(sent(s -> s.flagged("k-1", third.performedAt(), 10)))
        .containsExactly(third.id(), first.id());
  }
}
