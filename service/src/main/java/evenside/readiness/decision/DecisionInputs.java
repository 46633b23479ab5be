package evenside.readiness.decision;

import evenside.criteria.CriteriaSet;
import evenside.criteria.Criterion;
import evenside.criteria.FactCriterion;
import evenside.criteria.GradeBound;
import evenside.criteria.NumberBound;
import evenside.criteria.TrainingCriterion;
import evenside.decision.Cautions;
import evenside.knee.KneeCase;
import evenside.measure.Aspect;
import evenside.measure.ProtocolRule;
import evenside.readiness.cases.BatteryRecord.Loaded;
import evenside.readiness.cases.CaseBatteries;
import evenside.readiness.cases.EvidenceRows;
import evenside.readiness.training.SessionHistory;
import evenside.store.Reading;
import evenside.store.evidence.EvidenceQuery;
import evenside.store.evidence.FoundEvidence;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;

/**
 * Finds the few batteries a decision depends on, so that its cost does not grow with the case: for
 * each criterion the newest battery that answers it, the newest that explains its absence, and what
 * the cautions look at. Deciding on these gives what deciding on all batteries would.
 */
public final class DecisionInputs {
  private final CaseBatteries known;
  private final Span beforeSurgery;
  private final Span sinceSurgery;
  private final Map<UUID, Loaded> used = new LinkedHashMap<>();

  /** The newest battery, whatever it holds; empty where there is none. */
  private Optional<Loaded> newest = Optional.empty();

  private DecisionInputs(CaseBatteries known, LocalDate surgery, LocalDate asOf) {
    this.known = known;
    this.beforeSurgery = new Span(Optional.empty(), surgery);
    this.sinceSurgery = new Span(Optional.of(surgery.plusDays(1)), asOf);
  }

  /** The batteries, oldest first; none of a later day. */
  static List<Loaded> of(CaseBatteries known, KneeCase kneeCase, CriteriaSet set, LocalDate asOf) {
    DecisionInputs inputs = new DecisionInputs(known, kneeCase.surgeryDate(), asOf);
    inputs.newest(new Span(Optional.empty(), asOf));
    known.expect(measures(set), inputs.newest.map(battery -> battery.stored().performedAt()));
    set.leaves().forEach(inputs::leaf);
    Cautions.RED_FLAGS.forEach(flag -> inputs.lastSaid(flag, Aspect.VALUE));
    inputs.lastSaid(Cautions.EFFUSION, Aspect.OPERATED);
    List<Loaded> all = new ArrayList<>(inputs.used.values());
    all.sort(
        Comparator.comparing((Loaded battery) -> battery.stored().performedAt())
            .thenComparing(battery -> battery.stored().id()));
    return all;
  }

  private static Set<String> measures(CriteriaSet set) {
    Set<String> measures = new HashSet<>(Cautions.RED_FLAGS);
    measures.add(Cautions.EFFUSION);
    set.leaves().forEach(leaf -> measure(leaf).ifPresent(measures::add));
    return measures;
  }

  private static Optional<String> measure(Criterion.Leaf leaf) {
    if (leaf instanceof NumberBound cutOff) {
      return Optional.of(cutOff.measure());
    }
    if (leaf instanceof GradeBound grade) {
      return Optional.of(grade.measure());
    }
    return leaf instanceof FactCriterion fact ? Optional.of(fact.measure()) : Optional.empty();
  }

  /**
   * The entries of the training record, oldest first: where a criterion asks for training, or where
   * an entry may call for a stop. Else none, so that they cost nothing.
   */
  static List<SessionHistory.Loaded> sessions(
      Reading reading, String clinic, String caseId, CriteriaSet set, LocalDate asOf) {
    boolean asked = set.leaves().anyMatch(leaf -> leaf instanceof TrainingCriterion);
    Instant end = new Span(Optional.empty(), asOf).end();
    boolean flagged = !reading.sessions(clinic).flagged(caseId, end, 1).isEmpty();
    return asked || flagged ? new SessionHistory(reading, clinic, caseId).asOf(asOf) : List.of();
  }

  /**
   * Days on the clinic's calendar. An instant is on a day for 26 hours somewhere on earth, so the
   * store is asked for more and the day is looked at here.
   */
  private record Span(Optional<LocalDate> from, LocalDate to) {
    private static final ZoneOffset FIRST_PLACE = ZoneOffset.ofHours(14);
    private static final ZoneOffset LAST_PLACE = ZoneOffset.ofHours(-12);

    Optional<Instant> start() {
      return from.map(day -> day.atStartOfDay(FIRST_PLACE).toInstant());
    }

    Instant end() {
      return before(to.plusDays(1).atStartOfDay(LAST_PLACE).toInstant());
    }

    boolean holds(LocalDate day) {
      return !day.isAfter(to) && (from.isEmpty() || !day.isBefore(from.get()));
    }
  }

  /** A number that is asked for, in the days asked about. */
  private record Asked(String measure, String aspect, ProtocolRule rule, Span span) {
    EvidenceQuery until(Instant notAfter) {
      return new EvidenceQuery(
          measure,
          aspect,
          List.copyOf(rule.modes()),
          Optional.ofNullable(rule.speed()),
          Optional.ofNullable(rule.angle()),
          Optional.ofNullable(rule.context()),
          notAfter,
          span.start());
    }
  }

  private void leaf(Criterion.Leaf leaf) {
    if (leaf instanceof NumberBound cutOff) {
      cutOff(cutOff);
    } else if (leaf instanceof GradeBound grade) {
      answer(grade.measure(), Aspect.OPERATED, ProtocolRule.ANY);
    } else if (leaf instanceof FactCriterion fact) {
      answer(fact.measure(), Aspect.VALUE, ProtocolRule.ANY);
    }
  }

  private void cutOff(NumberBound cutOff) {
    String measure = cutOff.measure();
    if (cutOff.aspect() == Aspect.PRE_INJURY_CAPACITY) {
      answer(measure, Aspect.OPERATED, cutOff.rule());
      every(new Asked(measure, Aspect.OTHER.code(), cutOff.rule(), beforeSurgery));
    } else {
      answer(measure, cutOff.aspect(), cutOff.rule());
    }
  }

  /** The newest number; failing that, why there is none, or that it was tested another way. */
  private void answer(String measure, Aspect aspect, ProtocolRule rule) {
    if (newest(measure, aspect.code(), rule).stream().anyMatch(DecisionInputs::performed)) {
      return;
    }
    String absent = EvidenceRows.absent(aspect);
    if (newest(measure, absent, rule).isEmpty()
        && newest(measure, aspect.code(), ProtocolRule.ANY).isEmpty()) {
      newest(measure, absent, ProtocolRule.ANY);
    }
  }

  private List<FoundEvidence> newest(String measure, String aspect, ProtocolRule rule) {
    Asked asked = new Asked(measure, aspect, rule, sinceSurgery);
    return use(find(asked, sinceSurgery.end()));
  }

  /** From before surgery there are few, and which of them is the yardstick depends on them all. */
  private void every(Asked asked) {
    List<FoundEvidence> found = use(find(asked, asked.span().end()));
    while (!found.isEmpty()) {
      found = use(find(asked, before(found.get(0).performedAt())));
    }
  }

  /** What was last said, past every battery that only says it was left out. */
  private void lastSaid(String measure, Aspect aspect) {
    Asked asked = new Asked(measure, aspect.code(), ProtocolRule.ANY, sinceSurgery);
    List<FoundEvidence> found = find(asked, sinceSurgery.end());
    while (!found.isEmpty() && found.stream().noneMatch(DecisionInputs::performed)) {
      found = find(asked, before(found.get(0).performedAt()));
    }
    use(found);
  }

  private static boolean performed(FoundEvidence found) {
    return !found.row().isNotPerformed();
  }

  /** The newest evidence not after an instant; that it was not performed is evidence too. */
  private List<FoundEvidence> find(Asked asked, Instant until) {
    Instant notAfter = until;
    while (true) {
      List<FoundEvidence> found =
          known.newestEvidence(asked.until(notAfter), newestOf(asked.span(), notAfter));
      List<FoundEvidence> inside =
          found.stream()
              .filter(one -> asked.span().holds(known.get(one.batteryId()).performedOn()))
              .toList();
      if (found.isEmpty() || !inside.isEmpty()) {
        return inside;
      }
      notAfter = before(found.get(0).performedAt());
    }
  }

  /** The time of the newest battery, if it is the newest of what is asked about too. */
  private Optional<Instant> newestOf(Span span, Instant notAfter) {
    return newest
        .filter(battery -> span.holds(battery.performedOn()))
        .map(battery -> battery.stored().performedAt())
        .filter(time -> !time.isAfter(notAfter));
  }

  private List<FoundEvidence> use(List<FoundEvidence> found) {
    found.forEach(one -> used.put(one.batteryId(), known.get(one.batteryId())));
    return found;
  }

  private void newest(Span span) {
    Optional<Loaded> battery = known.newest(span.end());
    while (battery.isPresent() && !span.holds(battery.get().performedOn())) {
      battery = known.newest(before(battery.get().stored().performedAt()));
    }
    newest = battery;
    battery.ifPresent(one -> used.put(one.stored().id(), one));
  }

  /** The last instant at which it may still be this day at the clinic. */
  public static Instant endOf(LocalDate day) {
    return new Span(Optional.empty(), day).end();
  }

  /** The last instant that the store can tell from this one. */
  private static Instant before(Instant instant) {
    return instant.minusNanos(1_000);
  }
}
