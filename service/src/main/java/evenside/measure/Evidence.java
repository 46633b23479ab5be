package evenside.measure;

import evenside.knee.Sex;
import evenside.knee.Yardstick;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/**
 * All that a decision may look at, as of one date.
 *
 * @param surgeryDate day of the reconstruction
 * @param sex as the criteria use it
 * @param otherLeg what the other leg is worth as a yardstick: symmetry with one that is not sound
 *     can show a deficit and cannot show that there is none
 * @param asOf the date decided for
 * @param maxAgeDays results older than this do not count; null for no limit
 * @param measured what the batteries since surgery gave
 * @param gaps what they should have given and could not
 * @param training facts from the training record; empty without one
 */
public record Evidence(
    LocalDate surgeryDate,
    Sex sex,
    Yardstick otherLeg,
    LocalDate asOf,
    @Nullable Integer maxAgeDays,
    List<Measured> measured,
    List<Gap> gaps,
    List<TrainingFact> training) {
  public Evidence {
    measured = List.copyOf(measured);
    gaps = List.copyOf(gaps);
    training = List.copyOf(training);
  }

  /** Without a training record. */
  public Evidence(
      LocalDate surgeryDate,
      Sex sex,
      Yardstick otherLeg,
      LocalDate asOf,
      @Nullable Integer maxAgeDays,
      List<Measured> measured,
      List<Gap> gaps) {
    this(surgeryDate, sex, otherLeg, asOf, maxAgeDays, measured, gaps, List.of());
  }

  /** The same with facts from the training record. */
  public Evidence withTraining(List<TrainingFact> facts) {
    return new Evidence(surgeryDate, sex, otherLeg, asOf, maxAgeDays, measured, gaps, facts);
  }

  /**
   * A fact from the training record.
   *
   * @param of code of the progression or programme it is about, or empty
   */
  public Optional<TrainingFact> training(String fact, String of) {
    return training.stream()
        .filter(one -> one.fact().equals(fact) && one.of().equals(of))
        .findFirst();
  }

  /**
   * The newest battery's results for one number. A newer battery that leaves the whole measure open
   * (a test that was meant to be done and was not, a questionnaire with too few answers) comes
   * before an older result: the older number no longer says how the knee is.
   */
  public Lookup newest(String measure, Aspect aspect, ProtocolRule rule) {
    List<Measured> matching =
        measured.stream()
            .filter(m -> m.aspect() == aspect && m.measure().equals(measure))
            .filter(m -> rule.accepts(m.protocol()))
            .toList();
    Optional<Instant> newest = latest(matching, Measured::performedAt);
    Optional<Instant> hidden =
        latest(
            gaps.stream().filter(gap -> hides(gap, measure, aspect, rule)).toList(),
            Gap::performedAt);
    if (newest.isEmpty() || (hidden.isPresent() && hidden.get().isAfter(newest.get()))) {
      return missing(measure, aspect, rule);
    }
    List<Measured> candidates =
        matching.stream().filter(m -> m.performedAt().equals(newest.get())).toList();
    long age = ageDays(candidates.get(0).performedOn());
    return maxAgeDays != null && age > maxAgeDays
        ? new Lookup.TooOld(candidates, age, maxAgeDays)
        : new Lookup.Found(candidates);
  }

  /**
   * What was last said about a number, however old, and whatever was left out since: a warning sign
   * stands until somebody says that it is gone. Several values if batteries share the time.
   */
  public List<Value> lastSaid(String measure, Aspect aspect) {
    List<Measured> said =
        measured.stream().filter(m -> m.aspect() == aspect && m.measure().equals(measure)).toList();
    Optional<Instant> last = latest(said, Measured::performedAt);
    return said.stream()
        .filter(m -> last.equals(Optional.of(m.performedAt())))
        .map(Measured::value)
        .toList();
  }

  /** Days from a battery to the date decided for. */
  public long ageDays(LocalDate performedOn) {
    return ChronoUnit.DAYS.between(performedOn, asOf);
  }

  /**
   * Whether a gap comes before older numbers. Pre-injury capacity is of the leg as it is now: where
   * its newest test has no yardstick, an older test does not stand in.
   */
  private static boolean hides(Gap gap, String measure, Aspect aspect, ProtocolRule rule) {
    boolean capacity =
        aspect == Aspect.PRE_INJURY_CAPACITY
            && gap.aspect() == aspect
            && rule.accepts(gap.protocol());
    return gap.measure().equals(measure) && (capacity || open(gap));
  }

  /** The newest explanation counts; of one battery, that the whole measure is open says most. */
  private Lookup missing(String measure, Aspect aspect, ProtocolRule rule) {
    Predicate<Gap> thisNumber =
        gap -> open(gap) || (gap.aspect() == aspect && rule.accepts(gap.protocol()));
    Optional<Gap> newest =
        gaps.stream()
            .filter(gap -> gap.measure().equals(measure))
            .filter(thisNumber)
            .max(Comparator.comparing(Gap::performedAt).thenComparing(Evidence::open));
    if (newest.isPresent()) {
      Gap gap = newest.get();
      return new Lookup.Missing(gap.reason(), gap.detail() + " (" + gap.performedOn() + ")");
    }
    return testedAnotherWay(measure, aspect)
        ? new Lookup.Missing(
            Gap.Reason.OTHER_PROTOCOL, "tested, but not in the way this criterion asks for")
        : new Lookup.Missing(Gap.Reason.NOT_TESTED, "no battery holds this test");
  }

  private boolean testedAnotherWay(String measure, Aspect aspect) {
    return measured.stream().anyMatch(m -> m.measure().equals(measure) && m.aspect() == aspect)
        || gaps.stream().anyMatch(gap -> gap.measure().equals(measure) && gap.aspect() == aspect);
  }

  /** True if a battery leaves the whole measure open. */
  private static boolean open(Gap gap) {
    return gap.aspect() == null;
  }

  private static <T> Optional<Instant> latest(List<T> all, Function<T, Instant> when) {
    return all.stream().map(when).filter(Objects::nonNull).max(Comparator.naturalOrder());
  }
}
