package evenside.progression;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** What a condition can look at. */
public final class InputCatalogue {
  private final Map<String, Entry> entries = new LinkedHashMap<>();

  public InputCatalogue(List<Entry> entries) {
    entries.forEach(entry -> this.entries.put(entry.code(), entry));
  }

  /**
   * One input.
   *
   * @param code its code
   * @param kind what its values are
   * @param text what it says
   * @param question what to ask where it is not known; its text where it is worked out
   * @param redFlag true for a warning question
   */
  public record Entry(String code, Kind kind, String text, String question, boolean redFlag) {}

  /** What the values of an input are. */
  public enum Kind {
    YES_NO,
    NUMBER,
    GRADE,
    CHOICE
  }

  /**
   * The input with this code.
   *
   * @throws IllegalArgumentException if there is none
   */
  public Entry get(String code) {
    Entry entry = entries.get(code);
    if (entry == null) {
      throw new IllegalArgumentException("no input has the code " + code);
    }
    return entry;
  }

  /** The warning questions, by code. */
  public List<String> redFlags() {
    return entries.values().stream().filter(Entry::redFlag).map(Entry::code).toList();
  }
}
