package evenside.decision;

import org.jspecify.annotations.Nullable;

/**
 * Something the reader of a decision must keep in mind.
 *
 * @param code stable; the list grows
 * @param words in general, the same for everybody
 * @param urgent true if the person should be seen by a clinician now
 * @param source citation, or null
 * @param more what is to be said of the case at hand, or empty
 */
public record Caution(
    String code, String words, boolean urgent, @Nullable String source, String more) {

  /** The same with what is to be said of the case at hand. */
  public Caution with(String more) {
    return more.isEmpty() ? this : new Caution(code, words, urgent, source, more);
  }

  /** All of it in words. */
  public String text() {
    return more.isEmpty() ? words : words + " " + more;
  }
}
