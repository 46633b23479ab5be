package evenside.criteria;

import evenside.measure.Input;
import evenside.measure.ReferenceValue;
import evenside.measure.TrainingFact;
import evenside.measure.Value;
import evenside.quantity.Quantity;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The result of one criterion, or of a group with the results it joins. What the criterion says is
 * not repeated in it, and what follows from criterion and result alone is worked out when it is
 * asked for, since many findings are only counted.
 */
public sealed interface Finding permits GroupFinding, NumberFinding, SingleFinding {
  /** The criterion it is the result of. */
  Criterion criterion();

  /** The outcome, or null if the criterion is not for this person. */
  @Nullable Truth truth();

  /** False if shown for information only. */
  boolean required();

  /** What was seen, or null. */
  default @Nullable Value value() {
    return null;
  }

  /** How far beyond the bound, or null. */
  default @Nullable Quantity margin() {
    return null;
  }

  /** What would meet it, or null. */
  default @Nullable ToMeet toMeet() {
    return null;
  }

  /** Why it is undetermined even where that is reached, or null. */
  default @Nullable Reason leftOpenBy() {
    return null;
  }

  /** The test's published error, or null if none fits. */
  default @Nullable ErrorBand error() {
    return null;
  }

  /** What was published about this number in other people. */
  default List<ReferenceValue> context() {
    return List.of();
  }

  /** Recorded results used. */
  default List<Input> inputs() {
    return List.of();
  }

  /** Why it is not met or undetermined, or null. */
  default @Nullable Reason reason() {
    return null;
  }

  /** The findings a group joins; empty for a single criterion. */
  default List<Finding> of() {
    return List.of();
  }

  /** Entries of the training record used. */
  default List<TrainingFact.Use> sessions() {
    return List.of();
  }

  /** Code of the criterion. */
  default String id() {
    return criterion().id();
  }

  /** Kind of criterion, as on the wire. */
  default String type() {
    return criterion().type();
  }

  /** What was asked. */
  default String title() {
    return criterion().title();
  }

  /** What was asked, or null for a group. */
  default @Nullable Bound bound() {
    return criterion() instanceof Criterion.Leaf leaf ? leaf.asked() : null;
  }

  /** Citation and notes, or null for a group. */
  default @Nullable About about() {
    return criterion() instanceof Criterion.Leaf leaf ? leaf.about() : null;
  }

  /** The single criteria below and including this one. */
  default Stream<Finding> leaves() {
    List<Finding> leaves = new ArrayList<>();
    addLeaves(leaves);
    return leaves.stream();
  }

  /** Adds the single criteria below and including this one. */
  default void addLeaves(List<Finding> leaves) {
    leaves.add(this);
  }

  /** Ids of the single criteria with an outcome, in the order of the set. */
  default List<String> ids(Truth outcome) {
    List<String> ids = new ArrayList<>();
    addIds(outcome, ids);
    return ids;
  }

  /** Adds the ids of the single criteria with an outcome. */
  default void addIds(Truth outcome, List<String> ids) {
    if (truth() == outcome) {
      ids.add(id());
    }
  }

  /**
   * Why a criterion is not met or undetermined.
   *
   * @param code stable; the list grows
   * @param words the text; worked out when it is asked for, since many findings are never shown
   */
  record Reason(String code, Supplier<String> words) {
    /** A reason whose text is there already. */
    public Reason(String code, String text) {
      this(code, () -> text);
    }

    /** In words. */
    public String text() {
      return words.get();
    }

    /** Equal if it says the same. */
    @Override
    public boolean equals(@Nullable Object other) {
      return other instanceof Reason that && code.equals(that.code) && text().equals(that.text());
    }

    @Override
    public int hashCode() {
      return code.hashCode();
    }
  }
}
