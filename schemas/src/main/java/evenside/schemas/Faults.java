package evenside.schemas;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** What holds for every list of faults that is shown to a sender. */
public final class Faults {

  /** An answer shows at most so many and says that there were more. */
  public static final int MAX = 100;

  private Faults() {}

  /** Sorted by pointer, then code, each pair of the two once. Not cut at {@link #MAX}. */
  public static List<Fault> inOrder(Collection<Fault> faults) {
    record Key(String pointer, String code) {}
    Map<Key, Fault> first = new LinkedHashMap<>();
    faults.forEach(fault -> first.putIfAbsent(new Key(fault.pointer(), fault.code()), fault));
    return first.values().stream().sorted(Fault.ORDER).toList();
  }
}
