package evenside.readiness;

import evenside.criteria.CriteriaSet;
import evenside.criteria.Criterion;
import evenside.criteria.FactCriterion;
import evenside.criteria.GradeBound;
import evenside.criteria.Threshold;
import evenside.criteria.TrainingCriterion;
import evenside.decision.Cautions;
import evenside.knee.KneeCase;
import evenside.measure.Aspect;
import evenside.measure.ProtocolRule;
import evenside.readiness.BatteryRecord.Loaded;
import evenside.store.EvidenceQuery;
import evenside.store.FoundEvidence;
import evenside.store.Reading;
import evenside.store.StoredBattery;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;

/**
 * Finds the few batteries a decision depends on, so that its cost does not grow with the case: for
 * each criterion the newest battery that answers it, the newest that explains its absence, and what
 * the cautions look at. Deciding on these gives what deciding on all batteries would.
 */
final class DecisionInputs {
  /** It is the same date for 26 hours somewhere on earth. */
  private static final ZoneOffset LAST_PLACE = ZoneOffset.ofHours(-12);

  private final Reading reading;
  private final String clinic;
  private final String caseId;
  private final Map<UUID, Loaded> loaded = new LinkedHashMap<>();

  private DecisionInputs(Reading reading, String clinic, String caseId) {
    this.reading = reading;
    this.clinic = clinic;
    this.caseId = caseId;
  }

  /** The batteries, oldest first. */
  static List<Loaded> of(
      Reading reading,
      String clinic,
      String caseId,
      KneeCase kneeCase,
      CriteriaSet set,
      LocalDate asOf) {
    DecisionInputs inputs = new DecisionInputs(reading, clinic, caseId);
    inputs.newest(asOf);
    set.leaves().forEach(leaf -> inputs.leaf(leaf, kneeCase, asOf));
    Cautions.RED_FLAGS.forEach(
        flag -> inputs.find(flag, Aspect.VALUE.code(), ProtocolRule.ANY, asOf));
    inputs.find(Cautions.EFFUSION, Aspect.OPERATED.code(), ProtocolRule.ANY, asOf);
    List<Loaded> all = new ArrayList<>(inputs.loaded.values());
    all.sort(
        Comparator.comparing((Loaded battery) -> battery.stored().performedAt())
            .thenComparing(battery -> battery.stored().id()));
    return all;
  }

  /**
   * The entries of the training record, oldest first: where a criterion asks for training, or where
   * an entry may call for a stop. Else none, so that they cost nothing.
   */
  static List<SessionHistory.Loaded> sessions(
      Reading reading, String clinic, String caseId, CriteriaSet set, LocalDate asOf) {
    boolean asked = set.leaves().anyMatch(leaf -> leaf instanceof TrainingCriterion);
    boolean flagged = !reading.sessions(clinic).flagged(caseId, endOf(asOf), 1).isEmpty();
    return asked || flagged ? new SessionHistory(reading, clinic, caseId).asOf(asOf) : List.of();
  }

  private void leaf(Criterion.Leaf leaf, KneeCase kneeCase, LocalDate asOf) {
    if (leaf instanceof Threshold threshold) {
      threshold(threshold, kneeCase, asOf);
    } else if (leaf instanceof GradeBound grade) {
      find(grade.measure(), Aspect.OPERATED.code(), ProtocolRule.ANY, asOf);
    } else if (leaf instanceof FactCriterion fact) {
      find(fact.measure(), Aspect.VALUE.code(), ProtocolRule.ANY, asOf);
    }
  }

  private void threshold(Threshold threshold, KneeCase kneeCase, LocalDate asOf) {
    String measure = threshold.measure();
    if (threshold.aspect() == Aspect.PRE_INJURY_CAPACITY) {
      find(measure, Aspect.OPERATED.code(), threshold.rule(), asOf);
      find(measure, Aspect.OTHER.code(), threshold.rule(), kneeCase.surgeryDate().minusDays(1));
      return;
    }
    String aspect = threshold.aspect().code();
    if (find(measure, aspect, threshold.rule(), asOf)) {
      return;
    }
    find(measure, EvidenceRows.absent(threshold.aspect()), threshold.rule(), asOf);
    if (!threshold.rule().equals(ProtocolRule.ANY)) {
      find(measure, aspect, ProtocolRule.ANY, asOf);
    }
  }

  /** Loads the newest batteries that answer; false if none does. */
  private boolean find(String measure, String aspect, ProtocolRule rule, LocalDate asOf) {
    Instant notAfter = endOf(asOf);
    while (true) {
      List<FoundEvidence> found =
          reading.newestEvidence(clinic, caseId, query(measure, aspect, rule, notAfter));
      if (found.isEmpty()) {
        return false;
      }
      List<Loaded> batteries =
          found.stream().map(FoundEvidence::batteryId).distinct().map(this::load).toList();
      if (batteries.stream().anyMatch(battery -> !battery.performedOn().isAfter(asOf))) {
        return true;
      }
      // The clinic's calendar was already at the next day when these were done.
      notAfter = justBefore(batteries.get(0).stored());
    }
  }

  private void newest(LocalDate asOf) {
    Instant notAfter = endOf(asOf);
    while (true) {
      Optional<StoredBattery> battery = reading.newestBattery(clinic, caseId, notAfter);
      if (battery.isEmpty()) {
        return;
      }
      Loaded newest = BatteryRecord.load(battery.get());
      loaded.put(battery.get().id(), newest);
      if (!newest.performedOn().isAfter(asOf)) {
        return;
      }
      notAfter = justBefore(battery.get());
    }
  }

  private Loaded load(UUID id) {
    return loaded.computeIfAbsent(
        id,
        missing ->
            reading
                .battery(clinic, missing)
                .map(BatteryRecord::load)
                .orElseThrow(() -> new IllegalStateException("battery " + missing + " is gone")));
  }

  private static EvidenceQuery query(
      String measure, String aspect, ProtocolRule rule, Instant notAfter) {
    return new EvidenceQuery(
        measure,
        aspect,
        List.copyOf(rule.modes()),
        Optional.ofNullable(rule.speed()),
        Optional.ofNullable(rule.angle()),
        Optional.ofNullable(rule.context()),
        notAfter,
        Optional.empty());
  }

  static Instant endOf(LocalDate day) {
    return day.plusDays(1).atStartOfDay(LAST_PLACE).toInstant().minusNanos(1_000);
  }

  private static Instant justBefore(StoredBattery battery) {
    return battery.performedAt().minusNanos(1_000);
  }
}
