package evenside.readiness.cases;

import evenside.assessment.AssessedBattery;
import evenside.assessment.SideComparison;
import evenside.intake.RuleCode;
import evenside.schemas.Fault;
import evenside.schemas.Faults;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.core.JsonPointer;

/**
 * What a sender may want to look at again once the legs are compared: a day before the surgery, one
 * leg alone, or legs so different that a slip of the pen is likely.
 */
public final class Unusual {
  /** Symmetry outside these bounds is worth a look: own proposal, wide on purpose. */
  private static final double LEAST = 50;

  private static final double MOST = 130;

  private Unusual() {}

  /** What is worth a look in a battery of a case, among what was pointed out before. */
  static List<Fault> warnings(AssessedBattery assessed, LocalDate surgery, List<Fault> more) {
    List<Fault> warnings = new ArrayList<>(more);
    if (!assessed.battery().performedOn().isAfter(surgery)) {
      warnings.add(
          Fault.at(
                  JsonPointer.compile("/performedAt"),
                  RuleCode.BATTERY_BEFORE_SURGERY.code(),
                  "this lies before the surgery, or on its day, so decisions take from it only what"
                      + " the other leg could do then; check the date if it was tested afterwards")
              .withLimit("the surgery was on " + surgery));
    }
    return warnings(assessed, JsonPointer.empty(), warnings);
  }

  /** The same of a battery whose case is not known. */
  public static List<Fault> warnings(AssessedBattery assessed, JsonPointer at, List<Fault> more) {
    List<Fault> warnings = new ArrayList<>(more);
    for (SideComparison comparison : assessed.comparisons()) {
      String measure = comparison.measure().code();
      Double symmetry = comparison.symmetry();
      if (comparison.gap() != null) {
        String detail = measure + ": no symmetry, " + comparison.gap().detail();
        warnings.add(warning(at, comparison, RuleCode.SIDES_NOT_COMPARED, detail));
      } else if (symmetry != null && (symmetry < LEAST || symmetry > MOST)) {
        String detail = measure + ": please check the numbers and the sides";
        warnings.add(
            warning(at, comparison, RuleCode.SYMMETRY_UNUSUAL, detail)
                .withLimit("usually 50 to 130 %"));
      }
    }
    return Faults.inOrder(warnings);
  }

  private static Fault warning(
      JsonPointer at, SideComparison comparison, RuleCode code, String detail) {
    return Fault.at(at.append(JsonPointer.compile(comparison.pointer())), code.code(), detail);
  }
}
