package evenside.measure;

import evenside.knee.Sex;
import evenside.knee.Yardstick;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** All that a decision may look at, as of one date. Unchanged once made. */
public final class Evidence {
  private static final Comparator<Gap> NEWEST_EXPLANATION =
      Comparator.comparing(Gap::performedAt)
          .thenComparing(Evidence::open)
          .thenComparing(Gap::isNotPerformed);

  private static final Lookup ANOTHER_WAY =
      new Lookup.Missing(
          Gap.Reason.OTHER_PROTOCOL, "tested, but not in the way this criterion asks for");

  private static final Lookup NOT_TESTED =
      new Lookup.Missing(Gap.Reason.NOT_TESTED, "no battery since the surgery holds this test");

  private final LocalDate surgeryDate;
  private final Sex sex;
  private final Yardstick otherLeg;
  private final LocalDate asOf;
  private final @Nullable Integer maxAgeDays;
  private final EvidenceIndex index;
  private final List<TrainingFact> training;

  /**
   * Evidence without a training record.
   *
   * @param surgeryDate day of the reconstruction
   * @param sex as the criteria use it
   * @param otherLeg what the other leg is worth as a yardstick: symmetry with one that is not sound
   *     can show a deficit and cannot show that there is none
   * @param asOf the date decided for
   * @param maxAgeDays results older than this do not count; null for no limit
   * @param measured what the batteries since surgery gave
   * @param gaps what they should have given and could not
   */
  public Evidence(
      LocalDate surgeryDate,
      Sex sex,
      Yardstick otherLeg,
      LocalDate asOf,
      @Nullable Integer maxAgeDays,
      List<Measured> measured,
      List<Gap> gaps) {
    this(
        surgeryDate, sex, otherLeg, asOf, maxAgeDays, new EvidenceIndex(measured, gaps), List.of());
  }

  private Evidence(
      LocalDate surgeryDate,
      Sex sex,
      Yardstick otherLeg,
      LocalDate asOf,
      @Nullable Integer maxAgeDays,
      EvidenceIndex index,
      List<TrainingFact> training) {
    this.surgeryDate = surgeryDate;
    this.sex = sex;
    this.otherLeg = otherLeg;
    this.asOf = asOf;
    this.maxAgeDays = maxAgeDays;
    this.index = index;
    this.training = List.copyOf(training);
  }

  /** Day of the reconstruction. */
  public LocalDate surgeryDate() {
    return surgeryDate;
  }

  /** As the criteria use it. */
  public Sex sex() {
    return sex;
  }

  /** What the other leg is worth as a yardstick. */
  public Yardstick otherLeg() {
    return otherLeg;
  }

  /** The date decided for. */
  public LocalDate asOf() {
    return asOf;
  }

  /** The same with facts from the training record. */
  public Evidence withTraining(List<TrainingFact> facts) {
    return new Evidence(surgeryDate, sex, otherLeg, asOf, maxAgeDays, index, facts);
  }

  /**
   * A fact from the training record.
   *
   * @param of code of the progression or programme it is about, or empty
   */
  public Optional<TrainingFact> training(String fact, String of) {
    for (TrainingFact one : training) {
      if (one.fact().equals(fact) && one.of().equals(of)) {
        return Optional.of(one);
      }
    }
    return Optional.empty();
  }

  /**
   * The newest battery's results for one number. A newer battery that leaves the whole measure open
   * (a test that was meant to be done and was not, a questionnaire with too few answers) comes
   * before an older result: the older number no longer says how the knee is.
   */
  public Lookup newest(String measure, Aspect aspect, ProtocolRule rule) {
    List<Measured> candidates = newestAccepted(index.measured(measure, aspect), rule);
    if (candidates.isEmpty() || isHidden(measure, aspect, rule, candidates.get(0).performedAt())) {
      return missing(measure, aspect, rule);
    }
    if (maxAgeDays != null) {
      long age = ageDays(candidates.get(0).performedOn());
      if (age > maxAgeDays) {
        return new Lookup.TooOld(candidates, age, maxAgeDays);
      }
    }
    return new Lookup.Found(candidates);
  }

  /** The newest results tested in an accepted way; several if they share the time. */
  private static List<Measured> newestAccepted(List<Measured> newestFirst, ProtocolRule rule) {
    if (newestFirst.size() == 1) {
      return rule.accepts(newestFirst.get(0).protocol()) ? newestFirst : List.of();
    }
    List<Measured> candidates = new ArrayList<>();
    for (Measured one : newestFirst) {
      if (!candidates.isEmpty() && !one.performedAt().equals(candidates.get(0).performedAt())) {
        break;
      }
      if (rule.accepts(one.protocol())) {
        candidates.add(one);
      }
    }
    return candidates;
  }

  private boolean isHidden(String measure, Aspect aspect, ProtocolRule rule, Instant newest) {
    for (Gap gap : index.gaps(measure)) {
      if (gap.performedAt().isAfter(newest) && hides(gap, aspect, rule)) {
        return true;
      }
    }
    return false;
  }

  /**
   * What was last said about a number, however old, and whatever was left out since: a warning sign
   * stands until somebody says that it is gone. Several values if batteries share the time.
   */
  public List<Value> lastSaid(String measure, Aspect aspect) {
    List<Value> said = new ArrayList<>();
    for (Measured one : newestAccepted(index.measured(measure, aspect), ProtocolRule.ANY)) {
      said.add(one.value());
    }
    return said;
  }

  /** Days from a battery to the date decided for. */
  public long ageDays(LocalDate performedOn) {
    return ChronoUnit.DAYS.between(performedOn, asOf);
  }

  /**
   * Whether a gap comes before older numbers. Pre-injury capacity is of the leg as it is now: where
   * its newest test has no yardstick, an older test does not stand in.
   */
  private static boolean hides(Gap gap, Aspect aspect, ProtocolRule rule) {
    boolean capacity =
        aspect == Aspect.PRE_INJURY_CAPACITY
            && gap.aspect() == aspect
            && rule.accepts(gap.protocol());
    return capacity || open(gap) || leftOut(gap, aspect);
  }

  /** The newest explanation counts; of one battery, that the whole measure is open says most. */
  private Lookup missing(String measure, Aspect aspect, ProtocolRule rule) {
    Gap newest = null;
    for (Gap gap : index.gaps(measure)) {
      boolean concerned =
          open(gap)
              || leftOut(gap, aspect)
              || (gap.aspect() == aspect && rule.accepts(gap.protocol()));
      if (concerned && (newest == null || NEWEST_EXPLANATION.compare(gap, newest) > 0)) {
        newest = gap;
      }
    }
    if (newest != null) {
      return new Lookup.Missing(
          newest.reason(), newest.detail() + " (" + newest.performedOn() + ")");
    }
    return testedAnotherWay(measure, aspect) ? ANOTHER_WAY : NOT_TESTED;
  }

  private boolean testedAnotherWay(String measure, Aspect aspect) {
    if (!index.measured(measure, aspect).isEmpty()) {
      return true;
    }
    for (Gap gap : index.gaps(measure)) {
      if (gap.aspect() == aspect) {
        return true;
      }
    }
    return false;
  }

  /** True if the test was not done on a leg that the number rests on, in whatever way. */
  private static boolean leftOut(Gap gap, Aspect aspect) {
    return gap.isNotPerformed() && gap.aspect() == aspect;
  }

  /** True if a battery leaves the whole measure open. */
  private static boolean open(Gap gap) {
    return gap.aspect() == null;
  }
}
