package evenside.schemas;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;

/** What holds for every list of faults that is shown to a sender. */
public final class Faults {

  /** An answer shows at most so many and says that there were more. */
  public static final int MAX = 100;

  private Faults() {}

  /**
   * Sorted by pointer, then code, each pair of the two once. Not cut at {@link #MAX}. By sorting
   * and not by hashing: a sender can choose names that all have one hash.
   */
  public static List<Fault> inOrder(Collection<Fault> faults) {
    List<Fault> once = new ArrayList<>();
    faults.stream()
        .sorted(Fault.ORDER)
        .forEachOrdered(
            fault -> {
              boolean again =
                  !once.isEmpty() && Fault.ORDER.compare(once.get(once.size() - 1), fault) == 0;
              if (!again) {
                once.add(fault);
              }
            });
    return once;
  }
}
