package evenside.plan;

import evenside.criteria.Comparator;
import evenside.criteria.Finding;
import evenside.decision.Decision;
import evenside.measure.Protocol;
import evenside.progression.Advice;
import evenside.quantity.Quantity;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A proposal: what to train, test, wait for and ask about until a set of criteria could be met. A
 * clinician adopts or edits it.
 *
 * @param decision how the criteria stand
 * @param items one for each criterion that still matters
 * @param modifiers what changes the plan in this case
 * @param phase the phase of training in which the milestone is usually worked towards, or null
 * @param advice what the rules say about the next training, or null without a training record
 */
public record Plan(
    Decision decision,
    List<Item> items,
    List<Modifier> modifiers,
    FocusAreas.@Nullable Phase phase,
    @Nullable Advice advice) {
  public Plan {
    items = List.copyOf(items);
    modifiers = List.copyOf(modifiers);
  }

  /** What an item asks for. */
  public enum Kind {
    /** A number is short of its bound. */
    TRAIN("train"),
    /** There is no usable result. */
    TEST("test"),
    /** A sign or a statement stands in the way: a clinician looks at it. */
    EXAMINE("examine"),
    /** Only time is missing. */
    WAIT("wait");

    private final String code;

    Kind(String code) {
      this.code = code;
    }

    public String code() {
      return code;
    }
  }

  /**
   * One criterion that is not met or undetermined.
   *
   * @param finding the criterion as it stands
   * @param kind what it asks for
   * @param measure code of the measure, or null for time
   * @param oneOf group of which this is only one way to meet it, or null
   * @param deficits what is missing in the test's own unit, for each way of testing that falls
   *     short
   * @param work focus areas with what may be done now
   * @param outlook when it would be met if the recovery went on as it did
   * @param retest when to test again, or null for time
   * @param modifiers what changes this item
   * @param withTherapist true if a therapist is present at the test
   * @param testHeldBack the modifier that forbids the test for now, or null
   */
  public record Item(
      Finding finding,
      Kind kind,
      @Nullable String measure,
      @Nullable Finding oneOf,
      List<Deficit> deficits,
      List<Work> work,
      Outlook outlook,
      @Nullable Retest retest,
      List<Modifier> modifiers,
      boolean withTherapist,
      @Nullable Modifier testHeldBack) {
    public Item {
      deficits = List.copyOf(deficits);
      work = List.copyOf(work);
      modifiers = List.copyOf(modifiers);
    }

    /** An item that only time is missing for. */
    static Item waiting(Finding finding, @Nullable Finding oneOf, Outlook outlook) {
      return new Item(
          finding, Kind.WAIT, null, oneOf, List.of(), List.of(), outlook, null, List.of(), false,
          null);
    }
  }

  /**
   * How much is missing.
   *
   * @param protocol how it was tested
   * @param comparator how the needed number is meant
   * @param needed what the test has to show: the operated leg's number where the other leg stays as
   *     it is
   * @param now what it showed
   * @param missing needed minus now
   */
  public record Deficit(
      Protocol protocol, Comparator comparator, Quantity needed, Quantity now, Quantity missing) {}

  /**
   * A focus area and its exercises.
   *
   * @param area the area
   * @param exercises each with what holds it back
   */
  public record Work(FocusArea area, List<Choice> exercises) {
    public Work {
      exercises = List.copyOf(exercises);
    }
  }

  /**
   * An exercise that may be chosen.
   *
   * @param exercise the exercise
   * @param later true if it usually begins in a later phase
   * @param heldBack the modifier that holds it back, or null
   */
  public record Choice(Exercise exercise, boolean later, @Nullable Modifier heldBack) {}

  /**
   * When to test again.
   *
   * @param usual day after the usual interval, not before the date of the plan
   * @param usualWeeks the usual interval
   * @param mark how the interval is known
   * @param beyondError first day on which the change since the last test could exceed the error of
   *     the test, or null
   * @param basis what that day assumes, or why there is none
   */
  public record Retest(
      LocalDate usual,
      int usualWeeks,
      String mark,
      @Nullable LocalDate beyondError,
      String basis) {}
}
