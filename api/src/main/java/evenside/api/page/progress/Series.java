package evenside.api.page.progress;

import evenside.api.drawing.Drawing;
import java.util.List;

/**
 * One measure over time, tested in one way.
 *
 * @param title what was measured
 * @param how in which way
 * @param better which way is better, in words
 * @param drawings its courses
 * @param changes what can be said of its changes
 * @param otherLeg what became of the other leg; may be empty
 * @param columns headings of the table of numbers
 * @param rows the numbers, the day first
 */
public record Series(
    String title,
    String how,
    String better,
    List<Drawing> drawings,
    List<String> changes,
    String otherLeg,
    List<String> columns,
    List<List<String>> rows) {
  /** Keeps its own copies. */
  public Series {
    drawings = List.copyOf(drawings);
    changes = List.copyOf(changes);
    columns = List.copyOf(columns);
    rows = List.copyOf(rows);
  }
}
