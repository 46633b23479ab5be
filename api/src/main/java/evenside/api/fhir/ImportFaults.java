package evenside.api.fhir;

import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import evenside.schemas.Fault;
import evenside.schemas.Faults;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.core.JsonPointer;

/** Everything that keeps Observations from being read as a battery; each code is published. */
final class ImportFaults {
  /** Kinds of fault, named as in {@code catalogue/fault-codes.json}. */
  enum Code {
    RESOURCE_NOT_TAKEN,
    MEMBER_NOT_TAKEN,
    STATUS_NOT_TAKEN,
    CODE_UNKNOWN,
    CODES_DISAGREE,
    WORKED_OUT_HERE,
    OTHER_SUBJECT,
    SIDE_UNKNOWN,
    SIDE_NOT_TAKEN,
    ROLE_CONTRADICTS_CASE,
    TIME_UNUSABLE,
    SEVERAL_DAYS,
    VALUE_UNUSABLE,
    VALUE_CONTRADICTS_TRIALS,
    UNIT_WRONG,
    REASON_MISSING;

    String published() {
      return "fhir." + name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
    }
  }

  private final List<Fault> faults = new ArrayList<>();

  void add(String place, Code code, String detail) {
    faults.add(Fault.at(JsonPointer.compile(place), code.published(), detail));
  }

  void add(String place, Code code, String detail, String limit) {
    faults.add(Fault.at(JsonPointer.compile(place), code.published(), detail).withLimit(limit));
  }

  /** Ends the request if there was any. */
  void refuseIfAny() {
    if (!faults.isEmpty()) {
      throw refusal(faults).asException();
    }
  }

  /** The answer to a payload with these faults. */
  static Problem refusal(List<Fault> faults) {
    List<Fault> shown = faults.stream().sorted(Fault.ORDER).limit(Faults.MAX).toList();
    String counted = faults.size() + (faults.size() == 1 ? " fault" : " faults");
    return Problem.withFaults(
        ProblemType.INVALID_DOCUMENT,
        counted + "; nothing was stored.",
        shown,
        faults.size() > Faults.MAX);
  }
}
