package evenside.readiness.cases;

import evenside.readiness.cases.BatteryRecord.Loaded;
import evenside.store.Reading;
import evenside.store.StoredBattery;
import evenside.store.StoredCase;
import evenside.store.evidence.EvidenceQuery;
import evenside.store.evidence.EvidenceSearch;
import evenside.store.evidence.FoundEvidence;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;

/**
 * The batteries of one case within one transaction. Each is read and parsed once; and what the
 * batteries of one time are evidence for is read in one go, since the newest usually answer most of
 * what a decision asks.
 */
public final class CaseBatteries {
  /** As far ahead of this clock a battery is still taken. */
  private static final Duration CLOCK_DIFFERENCE = Duration.ofMinutes(5);

  /** Beyond the end of today in every place. */
  private static final Duration BEYOND_TODAY = Duration.ofDays(3);

  private final Reading reading;
  private final EvidenceSearch search;
  private final String clinic;
  private final String caseId;
  private final Map<UUID, Loaded> loaded = new HashMap<>();
  private final Map<Instant, Optional<Loaded>> newest = new HashMap<>();
  private final Map<Instant, List<FoundEvidence>> evidence = new HashMap<>();
  private final Map<String, Boolean> filed = new HashMap<>();

  /** The batteries of one case, read when they are asked for. */
  public CaseBatteries(Reading reading, StoredCase stored) {
    this.reading = reading;
    this.clinic = stored.clinic();
    this.caseId = stored.caseId();
    this.search = reading.evidence(clinic, caseId);
  }

  /** The clinic's offset from UTC, as the newest battery shows it. */
  public ZoneOffset offset(Instant now) {
    // Asked first, as the newest of other times then mostly follows from it without asking.
    newest(now.plus(BEYOND_TODAY));
    return newest(now.plus(CLOCK_DIFFERENCE))
        .map(battery -> battery.performedAt().getOffset())
        .orElse(ZoneOffset.UTC);
  }

  /** The newest battery of a time, that no other has replaced. */
  public Optional<Loaded> newest(Instant notAfter) {
    for (Map.Entry<Instant, Optional<Loaded>> asked : newest.entrySet()) {
      // The newest up to a later time, if it is not after this one, is the newest up to it too.
      boolean later = !asked.getKey().isBefore(notAfter);
      if (later && asked.getValue().filter(found -> isAfter(found, notAfter)).isEmpty()) {
        return asked.getValue();
      }
    }
    return newest.computeIfAbsent(
        notAfter, time -> reading.newestBattery(clinic, caseId, time).map(this::keep));
  }

  private static boolean isAfter(Loaded battery, Instant time) {
    return battery.stored().performedAt().isAfter(time);
  }

  /** A battery of the case. */
  public Loaded get(UUID id) {
    Loaded known = loaded.get(id);
    return known != null
        ? known
        : reading
            .battery(clinic, id)
            .map(this::keep)
            .orElseThrow(() -> new IllegalStateException("battery " + id + " is gone"));
  }

  private Loaded keep(StoredBattery stored) {
    return loaded.computeIfAbsent(stored.id(), id -> BatteryRecord.load(stored));
  }

  /**
   * The newest evidence that answers a question.
   *
   * @param at time of batteries that are the newest in what is asked about, and so are looked at
   *     first
   */
  public List<FoundEvidence> newestEvidence(EvidenceQuery asked, Optional<Instant> at) {
    List<FoundEvidence> first = at.map(this::evidenceAt).orElse(List.of());
    List<FoundEvidence> found =
        first.stream().filter(one -> asked.isAnsweredBy(one.row())).toList();
    return found.isEmpty() && isFiled(asked.measure()) ? search.newest(asked) : found;
  }

  private List<FoundEvidence> evidenceAt(Instant time) {
    return evidence.computeIfAbsent(time, search::at);
  }

  /**
   * Asks at once which of some measures the case has anything of.
   *
   * @param at time of batteries that are looked at first: what they have needs no asking
   */
  public void expect(Collection<String> measures, Optional<Instant> at) {
    Set<String> unknown = new HashSet<>(measures);
    unknown.removeAll(filed.keySet());
    at.map(this::evidenceAt).orElse(List.of()).forEach(one -> unknown.remove(one.row().measure()));
    Set<String> there = search.filed(unknown);
    unknown.forEach(measure -> filed.put(measure, there.contains(measure)));
  }

  /** Whether the case has anything of a measure; true where that was not asked. */
  private boolean isFiled(String measure) {
    return filed.getOrDefault(measure, true);
  }
}
