package evenside.progression;

import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * An immutable, versioned set of rules for what comes next.
 *
 * @param id code of the set
 * @param version a published version never changes
 * @param sha256 fingerprint of its canonical bytes
 * @param title name
 * @param appliesTo {@code knee} for the response after any training, else one kind of work
 * @param exercises exercises it is for; empty for all of its kind
 * @param use when it counts
 * @param limits how often
 * @param levels the steps, from 1; empty where there are none
 * @param rules what follows from what was recorded
 * @param hints what goes with the progression
 */
public record Progression(
    String id,
    String version,
    String sha256,
    String title,
    String appliesTo,
    Set<String> exercises,
    Use use,
    Limits limits,
    List<Level> levels,
    List<Rule> rules,
    List<Hint> hints) {
  public Progression {
    exercises = Set.copyOf(exercises);
    levels = List.copyOf(levels);
    rules = List.copyOf(rules);
    hints = List.copyOf(hints);
  }

  /** When a set counts. */
  public enum Use {
    /** Wherever it applies. */
    ALWAYS,
    /** Only where the session or the caller names it. */
    NAMED,
    /** Shown beside the others, counting only where the caller names it. */
    SHOWN
  }

  /**
   * What goes with a progression and follows from no record.
   *
   * @param text in words
   * @param mark how it is known
   */
  public record Hint(String text, String mark) {}

  /** {@code id/version}. */
  public String name() {
    return id + "/" + version;
  }

  public boolean isAboutKnee() {
    return appliesTo.equals("knee");
  }

  public Optional<Level> level(int number) {
    return levels.stream().filter(level -> level.number() == number).findFirst();
  }

  public int lastLevel() {
    return levels.isEmpty() ? 0 : levels.get(levels.size() - 1).number();
  }

  /** Fewest days from a session at this level to the next. */
  int daysBetween(int level) {
    return level(level).map(Level::daysBetween).orElse(limits.daysBetween());
  }

  /** Only a progression with levels has a next one; other sets change the dose. */
  public boolean hasLevels() {
    return !levels.isEmpty();
  }
}
