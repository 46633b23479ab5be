package evenside.cohort;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;

/**
 * People divided into cells whose sum is shown or known, with small cells hidden.
 *
 * <p>Shape: a cell of one to {@code smallest − 1} people is hidden; a cell of nobody is shown,
 * since it points at nobody. What the hidden cells hold together follows from the sum, so further
 * cells are hidden, smallest first, until at least two are and they hold {@code smallest} people or
 * more together: no hidden cell can be worked out by subtraction.
 *
 * <p>Source: common practice of statistical disclosure control, no single source.
 */
public final class Cells {
  private final int[] counts;
  private final Set<Integer> hidden = new HashSet<>();

  private Cells(int smallest, int[] counts) {
    this.counts = counts.clone();
    List<Integer> peopled = new ArrayList<>();
    for (int i = 0; i < counts.length; i++) {
      if (counts[i] > 0) {
        peopled.add(i);
      }
    }
    peopled.sort(Comparator.comparingInt(i -> counts[i]));
    int held = 0;
    for (int cell : peopled) {
      boolean small = counts[cell] < smallest;
      boolean givenAway = !hidden.isEmpty() && (hidden.size() < 2 || held < smallest);
      if (small || givenAway) {
        hidden.add(cell);
        held += counts[cell];
      }
    }
  }

  /**
   * Hides small cells.
   *
   * @param smallest fewest people a shown cell may have; 1 hides nothing
   * @param counts people in each cell
   */
  public static Cells of(int smallest, int... counts) {
    return new Cells(smallest, counts);
  }

  /** The count of a cell; empty if it is hidden. */
  public OptionalInt shown(int cell) {
    return hidden.contains(cell) ? OptionalInt.empty() : OptionalInt.of(counts[cell]);
  }

  /** True if any cell is hidden. */
  public boolean hides() {
    return !hidden.isEmpty();
  }
}
