package evenside.criteria;

import evenside.measure.Input;
import evenside.measure.TrainingFact;
import evenside.measure.Value;
import evenside.quantity.Quantity;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The result of a single criterion that is no number held against its bound: of a grade, a fact, a
 * time, the training record, and of whatever cannot be told.
 *
 * @param criterion what was asked
 * @param required false if shown for information only
 * @param truth the outcome, or null if the criterion is not for this person
 * @param value what was seen, or null
 * @param margin how far beyond the bound, or null
 * @param toMeet what would meet it, or null
 * @param reason why it is not met or undetermined, or null
 * @param inputs recorded results used
 * @param sessions entries of the training record used
 */
record SingleFinding(
    Criterion.Leaf criterion,
    boolean required,
    @Nullable Truth truth,
    @Nullable Value value,
    @Nullable Quantity margin,
    @Nullable ToMeet toMeet,
    @Nullable Reason reason,
    List<Input> inputs,
    List<TrainingFact.Use> sessions)
    implements Finding {
  private static final Reason NOT_APPLICABLE =
      new Reason("not-applicable", "this criterion is for other people");

  /** For somebody the criterion is not for. */
  static Finding notApplicable(Criterion.Leaf criterion, boolean required) {
    return new SingleFinding(
        criterion, required, null, null, null, null, NOT_APPLICABLE, List.of(), List.of());
  }

  /** Cannot be told, whatever was seen. */
  static Finding undetermined(
      Criterion.Leaf criterion,
      boolean required,
      @Nullable Value value,
      List<Input> inputs,
      Reason reason) {
    return new SingleFinding(
        criterion, required, Truth.UNDETERMINED, value, null, null, reason, inputs, List.of());
  }

  /** Cannot be told, as nothing was seen. */
  static Finding missing(Criterion.Leaf criterion, boolean required, String code, String detail) {
    return undetermined(criterion, required, null, List.of(), new Reason(code, detail));
  }
}
