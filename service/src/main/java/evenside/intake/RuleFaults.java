package evenside.intake;

import evenside.schemas.Fault;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.core.JsonPointer;

/** Collects what the rules find in one document, each with its place. */
final class RuleFaults {
  private final JsonPointer root;
  private final List<Fault> faults = new ArrayList<>();

  /**
   * Starts an empty list.
   *
   * @param root where the document stands in the one that was sent
   */
  RuleFaults(JsonPointer root) {
    this.root = root;
  }

  void add(String pointer, RuleCode code, String detail) {
    faults.add(fault(pointer, code, detail));
  }

  void add(String pointer, RuleCode code, String detail, String limit) {
    faults.add(fault(pointer, code, detail).withLimit(limit));
  }

  /** A place as faults name it, for a sentence that speaks of another place. */
  String named(String pointer) {
    return Fault.fragment(root.append(JsonPointer.compile(pointer)));
  }

  /** Where the document stands in the one that was sent. */
  JsonPointer root() {
    return root;
  }

  /** Takes over what another list found. */
  void addAll(RuleFaults that) {
    faults.addAll(that.faults);
  }

  List<Fault> all() {
    return List.copyOf(faults);
  }

  private Fault fault(String pointer, RuleCode code, String detail) {
    return Fault.at(root.append(JsonPointer.compile(pointer)), code.code(), detail);
  }
}
