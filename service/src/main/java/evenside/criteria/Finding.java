package evenside.criteria;

import evenside.measure.Input;
import evenside.measure.ReferenceValue;
import evenside.measure.TrainingFact;
import evenside.measure.Value;
import evenside.quantity.Quantity;
import java.util.List;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The result of one criterion, or of a group with the results it joins.
 *
 * @param id code of the criterion
 * @param type kind of criterion, as on the wire
 * @param title what was asked
 * @param truth the outcome, or null if the criterion is not for this person
 * @param required false if shown for information only
 * @param value what was seen, or null
 * @param bound what was asked, or null for a group
 * @param margin how far beyond the bound, or null
 * @param toMeet what would meet it, or null
 * @param error the test's published error, or null if none fits
 * @param context what was published about this number in other people
 * @param inputs recorded results used
 * @param reason why it is not met or undetermined, or null
 * @param about citation and notes, or null for a group
 * @param of the findings a group joins; empty for a single criterion
 * @param sessions entries of the training record used
 */
public record Finding(
    String id,
    String type,
    String title,
    @Nullable Truth truth,
    boolean required,
    @Nullable Value value,
    @Nullable Bound bound,
    @Nullable Quantity margin,
    @Nullable ToMeet toMeet,
    @Nullable ErrorBand error,
    List<ReferenceValue> context,
    List<Input> inputs,
    @Nullable Reason reason,
    @Nullable About about,
    List<Finding> of,
    List<TrainingFact.Use> sessions) {
  public Finding {
    context = List.copyOf(context);
    inputs = List.copyOf(inputs);
    of = List.copyOf(of);
    sessions = List.copyOf(sessions);
  }

  /** A finding that uses no entry of the training record. */
  public Finding(
      String id,
      String type,
      String title,
      @Nullable Truth truth,
      boolean required,
      @Nullable Value value,
      @Nullable Bound bound,
      @Nullable Quantity margin,
      @Nullable ToMeet toMeet,
      @Nullable ErrorBand error,
      List<ReferenceValue> context,
      List<Input> inputs,
      @Nullable Reason reason,
      @Nullable About about,
      List<Finding> of) {
    this(
        id, type, title, truth, required, value, bound, margin, toMeet, error, context, inputs,
        reason, about, of, List.of());
  }

  /**
   * Why a criterion is not met or undetermined.
   *
   * @param code stable; the list grows
   * @param words the text; worked out when it is asked for, since many findings are never shown
   */
  public record Reason(String code, Supplier<String> words) {
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

  /** The single criteria below and including this one. */
  public Stream<Finding> leaves() {
    return about != null ? Stream.of(this) : of.stream().flatMap(Finding::leaves);
  }

  static Finding group(
      Criterion criterion, @Nullable Truth truth, boolean required, List<Finding> of) {
    return new Finding(
        criterion.id(),
        criterion.type(),
        criterion.title(),
        truth,
        required,
        null,
        null,
        null,
        null,
        null,
        List.of(),
        List.of(),
        null,
        null,
        of);
  }

  static Finding notApplicable(Criterion criterion, About about, Bound bound, boolean required) {
    Reason reason = new Reason("not-applicable", "this criterion is for other people");
    return new Finding(
        about.id(),
        criterion.type(),
        about.title(),
        null,
        required,
        null,
        bound,
        null,
        null,
        null,
        List.of(),
        List.of(),
        reason,
        about,
        List.of());
  }

  static Finding undetermined(
      Criterion criterion,
      About about,
      Bound bound,
      boolean required,
      @Nullable Value value,
      List<Input> inputs,
      Reason reason) {
    return new Finding(
        about.id(),
        criterion.type(),
        about.title(),
        Truth.UNDETERMINED,
        required,
        value,
        bound,
        null,
        null,
        null,
        List.of(),
        inputs,
        reason,
        about,
        List.of());
  }
}
