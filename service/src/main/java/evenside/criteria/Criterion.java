package evenside.criteria;

import evenside.knee.Sex;
import evenside.measure.Evidence;
import evenside.measure.Gap;
import java.util.List;

/**
 * One criterion, or a group of criteria. A tree of these is evaluated whole: no result is skipped
 * because another already decided, since every criterion is shown.
 */
public sealed interface Criterion {
  String id();

  String title();

  /** Kind of criterion, as on the wire. */
  String type();

  /**
   * Holds the criterion against evidence.
   *
   * @param required false where the criterion is shown for information only
   */
  Finding evaluate(Evidence evidence, boolean required);

  /** The single criteria in it, in order. */
  List<Leaf> leaves();

  /** A criterion by itself. */
  sealed interface Leaf extends Criterion
      permits TestedCriterion, TimeSinceSurgery, TrainingCriterion {
    About about();

    /** What it asks for. */
    Bound asked();

    /** The finding for somebody the criterion is for. */
    Finding judge(Evidence evidence, boolean required);

    /** Where the criterion is for one sex, it is not for others, and open if none is stated. */
    @Override
    default Finding evaluate(Evidence evidence, boolean required) {
      Sex onlyFor = about().onlyFor();
      if (onlyFor == null || onlyFor == evidence.sex()) {
        return judge(evidence, required);
      }
      return evidence.sex() == Sex.NOT_STATED
          ? SingleFinding.missing(
              this,
              required,
              Gap.Reason.SEX_NOT_STATED.code(),
              "this criterion depends on sex, which is not stated")
          : SingleFinding.notApplicable(this, required);
    }

    @Override
    default String id() {
      return about().id();
    }

    @Override
    default String title() {
      return about().title();
    }

    @Override
    default List<Leaf> leaves() {
      return List.of(this);
    }
  }

  /** A criterion that joins others. */
  sealed interface Group extends Criterion permits AllOf, AnyOf, AtLeast {
    List<Criterion> of();

    /** The outcome of all, of which there is at least one. */
    Truth join(Tally outcomes);

    @Override
    default List<Leaf> leaves() {
      return of().stream().flatMap(criterion -> criterion.leaves().stream()).toList();
    }

    /** Criteria that are not for this person take no part. */
    @Override
    default Finding evaluate(Evidence evidence, boolean required) {
      List<Criterion> children = of();
      Finding[] findings = new Finding[children.size()];
      Tally tally = new Tally();
      for (int i = 0; i < findings.length; i++) {
        Finding finding = children.get(i).evaluate(evidence, required);
        findings[i] = finding;
        Truth truth = finding.truth();
        if (truth != null) {
          tally.add(truth);
        }
      }
      Truth joined = tally.isEmpty() ? null : join(tally);
      return new GroupFinding(this, required, joined, List.of(findings));
    }
  }

  /** Met only if every one is met. */
  record AllOf(String id, String title, List<Criterion> of) implements Group {
    public AllOf {
      of = List.copyOf(of);
    }

    @Override
    public String type() {
      return "all";
    }

    @Override
    public Truth join(Tally outcomes) {
      return outcomes.all();
    }
  }

  /** Met if one is met. */
  record AnyOf(String id, String title, List<Criterion> of) implements Group {
    public AnyOf {
      of = List.copyOf(of);
    }

    @Override
    public String type() {
      return "any";
    }

    @Override
    public Truth join(Tally outcomes) {
      return outcomes.any();
    }
  }

  /** Met if at least {@code count} are met. */
  record AtLeast(String id, String title, int count, List<Criterion> of) implements Group {
    public AtLeast {
      of = List.copyOf(of);
    }

    @Override
    public String type() {
      return "at-least";
    }

    @Override
    public Truth join(Tally outcomes) {
      return outcomes.atLeast(count);
    }
  }
}
