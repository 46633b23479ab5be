package evenside.readiness.training;

import static evenside.training.Diary.check;
import static evenside.training.Diary.clearance;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.document.Document;
import evenside.store.Reading;
import evenside.store.StoredSession;
import evenside.training.Session;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.node.ObjectNode;

/**
 * What was read around a new entry serves the advice that follows; it must say what the store says.
 * Invented entries, most of them at the edges of the spans that are read.
 */
class SessionHistoryTest extends TrainingRecord {
  private static final OffsetDateTime NOON = OffsetDateTime.parse("2026-03-02T12:00:00Z");

  /**
   * Around an entry; the same and what advice looks back to; the ends of days at the far places.
   */
  private static final List<Duration> EDGES =
      List.of(
          Duration.ZERO,
          Duration.ofDays(-45),
          Duration.ofDays(45),
          Duration.ofDays(-90),
          Duration.ofDays(-135),
          Duration.ofDays(-165),
          Duration.ofHours(24),
          Duration.ofHours(-26),
          Duration.ofHours(14));

  private final Random random = new Random(20260302);

  private OffsetDateTime time() {
    Duration edge = EDGES.get(random.nextInt(EDGES.size()));
    long nanos = random.nextInt(3) * 1_000L - 1_000 + random.nextInt(2) * 500L;
    int days = random.nextInt(4) == 0 ? random.nextInt(400) - 200 : random.nextInt(3) - 1;
    ZoneOffset place = ZoneOffset.ofHours(random.nextInt(29) - 14);
    return NOON.plus(edge).plusDays(days).plusNanos(nanos).withOffsetSameInstant(place);
  }

  private void insert(String caseId, OffsetDateTime at, List<String> earlier) {
    UUID id = UUID.randomUUID();
    String name = "e-" + id;
    boolean clears = !earlier.isEmpty() && random.nextInt(5) == 0;
    ObjectNode json =
        clears
            ? clearance(name, at.toString(), earlier.get(random.nextInt(earlier.size())))
            : check(name, at.toString());
    Document content = Document.of(json);
    StoredSession stored =
        new StoredSession(
            clinic,
            id,
            caseId,
            Optional.of(name),
            content.sha256(),
            at.toInstant(),
            Instant.EPOCH,
            clears || random.nextInt(8) == 0,
            content.bytes());
    OPEN.store()
        .<Boolean>write(
            writing -> {
              writing.insertSession(stored, content.bytes());
              return true;
            });
    earlier.add(name);
  }

  private SessionHistory history(Reading reading, String caseId) {
    return new SessionHistory(reading, clinic, caseId);
  }

  private static List<String> names(List<Session> sessions) {
    return sessions.stream().map(Session::id).toList();
  }

  private void compare(String caseId, List<OffsetDateTime> times) {
    OffsetDateTime at = time();
    LocalDate day = time().toLocalDate();
    LocalDate from = day.minusDays(random.nextInt(100));
    OPEN.store()
        .<Boolean>read(
            reading -> {
              SessionHistory both = history(reading, caseId);
              assertThat(both.around(at.toInstant(), List.of())).hasSize(near(at, times));
              assertThat(names(SessionHistory.sessions(both.asOf(day))))
                  .as("around %s, as of %s", at, day)
                  .isEqualTo(names(SessionHistory.sessions(history(reading, caseId).asOf(day))));
              assertThat(names(both.between(from, day)))
                  .isEqualTo(names(history(reading, caseId).between(from, day)));
              return true;
            });
  }

  /** Counted without the store, which keeps microseconds. */
  private static int near(OffsetDateTime at, List<OffsetDateTime> times) {
    return (int)
        times.stream()
            .map(one -> Duration.between(micros(at), micros(one)).abs())
            .filter(apart -> apart.compareTo(Duration.ofDays(45)) <= 0)
            .count();
  }

  private static Instant micros(OffsetDateTime time) {
    return time.toInstant().truncatedTo(java.time.temporal.ChronoUnit.MICROS);
  }

  @Test
  void adviceAfterALookAround_isOnTheSameEntries_asWithout() {
    for (int person = 0; person < 12; person++) {
      String caseId = "r-" + person;
      put(caseId);
      List<String> names = new ArrayList<>();
      List<OffsetDateTime> times = new ArrayList<>();
      for (int i = 0; i < 12; i++) {
        times.add(time());
        insert(caseId, times.get(i), names);
        for (int look = 0; look < 5; look++) {
          compare(caseId, times);
        }
      }
    }
  }

  /** More than are read at once: the newest count, in either way. */
  @Test
  void longRecord_isReadAsWithout() {
    List<String> names = new ArrayList<>();
    List<OffsetDateTime> times = new ArrayList<>();
    for (int i = 0; i < 1_010; i++) {
      times.add(NOON.minusHours(i));
      insert("k-1", times.get(i), names);
    }
    for (LocalDate day : List.of(NOON.toLocalDate(), NOON.minusDays(20).toLocalDate())) {
      OPEN.store()
          .<Boolean>read(
              reading -> {
                SessionHistory both = history(reading, "k-1");
                both.around(NOON.toInstant(), List.of());
                assertThat(names(SessionHistory.sessions(both.asOf(day))))
                    .hasSizeGreaterThan(500)
                    .isEqualTo(names(SessionHistory.sessions(history(reading, "k-1").asOf(day))));
                return true;
              });
    }
  }

  /** They are looked up before the entry is checked; the first two were a failure once. */
  @Test
  void timeThatNoCalendarHas_isRefused() {
    for (String at :
        List.of(
            "+999999999-12-31T23:59:59Z",
            "-999999999-01-01T00:00:00Z",
            "+10000-01-01T00:00:00Z",
            "0000-01-01T00:00:00Z",
            "9999-12-31T23:59:59-14:00")) {
      assertThat(refused(check("far", at))).as(at).isNotEmpty();
    }
  }
}
