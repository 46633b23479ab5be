package evenside.intake;

import evenside.schemas.Fault;
import java.util.List;

/**
 * What the check of a document found.
 *
 * @param faults everything wrong, in order of place; empty if it is valid
 * @param warnings things worth a look that do not make it invalid
 */
public record Checked(List<Fault> faults, List<Fault> warnings) {
  public Checked {
    faults = List.copyOf(faults);
    warnings = List.copyOf(warnings);
  }

  public boolean valid() {
    return faults.isEmpty();
  }
}
