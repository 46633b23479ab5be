package evenside.readiness.training;

import evenside.intake.SessionReader;
import evenside.readiness.recording.Records;
import evenside.schemas.StrictJson;
import evenside.store.Reading;
import evenside.store.SentEntry;
import evenside.store.SessionSearch;
import evenside.training.Entry;
import evenside.training.Session;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import tools.jackson.databind.JsonNode;

/**
 * Finds the entries of a training record that advice depends on, so that its cost does not grow
 * with the case: those of the last 90 days of training, and further back to what may still call for
 * a stop, since a stop holds until a clinician clears it however long that takes.
 */
public final class SessionHistory {
  private static final int DAYS = 90;

  /** What was usual for a knee is known from a few entries before. */
  private static final int DAYS_BEFORE_FLAG = 30;

  /** More than anybody trains in that time; the newest count. */
  private static final int MOST = 1000;

  /** Days on either side within which a new entry is held against others. */
  private static final int NEIGHBOUR_DAYS = 45;

  private static final ZoneOffset FIRST_PLACE = ZoneOffset.ofHours(14);
  private static final ZoneOffset LAST_PLACE = ZoneOffset.ofHours(-12);

  private final SessionSearch search;
  private final String caseId;
  private final Map<UUID, Loaded> loaded = new HashMap<>();
  private Near near = new Near(Instant.EPOCH, Instant.EPOCH, List.of());

  /** The training record of one case. */
  public SessionHistory(Reading reading, String clinic, String caseId) {
    this.search = reading.sessions(clinic);
    this.caseId = caseId;
  }

  /**
   * An entry taken from the store.
   *
   * @param stored the record
   * @param content the entry as it was sent
   * @param session the same, read
   */
  public record Loaded(SentEntry stored, JsonNode content, Session session) {}

  /** All entries of a span of time, newest first. */
  private record Near(Instant from, Instant to, List<SentEntry> entries) {
    boolean covers(Instant start, Instant end) {
      return !start.isBefore(from) && !end.isAfter(to);
    }
  }

  /** The entries for advice as of a day, oldest first. */
  public List<Loaded> asOf(LocalDate day) {
    Instant end = day.plusDays(1).atStartOfDay(LAST_PLACE).toInstant().minusNanos(1_000);
    Optional<Instant> newest = newest(end);
    if (newest.isEmpty()) {
      return List.of();
    }
    Instant from = newest.get().minus(DAYS, ChronoUnit.DAYS);
    Map<UUID, Loaded> asked = new LinkedHashMap<>();
    search.flagged(caseId, end, MOST).forEach(one -> asked.put(one.id(), load(one)));
    Optional<Instant> unsettled = oldestUnsettled(asked.values());
    if (unsettled.isPresent()) {
      Instant before = unsettled.get().minus(DAYS_BEFORE_FLAG, ChronoUnit.DAYS);
      from = before.isBefore(from) ? before : from;
    }
    find(from, end).forEach(one -> asked.put(one.id(), load(one)));
    return asked.values().stream()
        .filter(one -> !one.session().performedOn().isAfter(day))
        .sorted(Comparator.comparing(one -> one.stored().performedAt()))
        .toList();
  }

  /** The entries of a span of days, both included. */
  public List<Session> between(LocalDate from, LocalDate to) {
    Instant start = from.atStartOfDay(FIRST_PLACE).toInstant();
    Instant end = to.plusDays(1).atStartOfDay(LAST_PLACE).toInstant().minusNanos(1_000);
    return find(start, end).stream()
        .map(one -> load(one).session())
        .filter(one -> !one.performedOn().isBefore(from) && !one.performedOn().isAfter(to))
        .toList();
  }

  /** The oldest entry that may call for a stop and that no clearance names. */
  private static Optional<Instant> oldestUnsettled(Collection<Loaded> flagged) {
    List<String> cleared = new ArrayList<>();
    for (Loaded one : flagged) {
      if (one.session().entry() instanceof Entry.Clearance clearance) {
        cleared.addAll(clearance.clears());
      }
    }
    return flagged.stream()
        .filter(one -> !(one.session().entry() instanceof Entry.Clearance))
        .filter(one -> cleared.stream().noneMatch(name -> one.session().isCalled(name)))
        .map(one -> one.stored().performedAt())
        .min(Comparator.naturalOrder());
  }

  /** The entries that a new one is held against: those around it, and those it names. */
  List<Session> around(Instant at, List<String> named) {
    List<Session> sessions = new ArrayList<>();
    Instant kept = at.truncatedTo(ChronoUnit.MICROS);
    Instant from = kept.minus(NEIGHBOUR_DAYS, ChronoUnit.DAYS);
    Instant to = kept.plus(NEIGHBOUR_DAYS, ChronoUnit.DAYS);
    // Further back than asked here: the advice that follows mostly asks about just that time.
    Instant back = from.minus(DAYS, ChronoUnit.DAYS);
    List<SentEntry> all = search.between(caseId, back, to, MOST);
    if (all.size() < MOST) {
      near = new Near(back, to, all);
    }
    find(from, to).forEach(one -> sessions.add(load(one).session()));
    for (String name : named) {
      if (sessions.stream().noneMatch(session -> session.isCalled(name))) {
        named(name).ifPresent(one -> sessions.add(load(one).session()));
      }
    }
    return sessions;
  }

  private Optional<Instant> newest(Instant end) {
    List<SentEntry> known =
        near.entries().stream().filter(one -> !one.performedAt().isAfter(end)).toList();
    return known.isEmpty() || end.isAfter(near.to())
        ? search.newest(caseId, end)
        : Optional.of(known.get(0).performedAt());
  }

  private List<SentEntry> find(Instant from, Instant to) {
    return near.covers(from, to)
        ? near.entries().stream()
            .filter(one -> !one.performedAt().isBefore(from) && !one.performedAt().isAfter(to))
            .toList()
        : search.between(caseId, from, to, MOST);
  }

  private Optional<SentEntry> named(String name) {
    return Records.uuid(name)
        .flatMap(search::sentById)
        .or(() -> search.sentByRecordId(name))
        .filter(one -> one.caseId().equals(caseId));
  }

  private Loaded load(SentEntry stored) {
    return loaded.computeIfAbsent(stored.id(), id -> read(stored));
  }

  /** Reads an entry. */
  public static Loaded read(SentEntry stored) {
    JsonNode content = StrictJson.read(stored.content(), StrictJson.Limits.OWN);
    return new Loaded(stored, content, SessionReader.read(stored.id().toString(), content));
  }

  /** Sessions of some entries. */
  public static List<Session> sessions(List<Loaded> loaded) {
    return loaded.stream().map(Loaded::session).toList();
  }
}
