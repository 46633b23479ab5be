package evenside.evidence;

import java.util.List;
import java.util.Optional;

/**
 * What the check of a bundle found, in the order it looked. It ends with the first check that
 * fails.
 *
 * @param checks every check that was made
 */
public record Verification(List<Check> checks) {
  /** Keeps its own copy. */
  public Verification {
    checks = List.copyOf(checks);
  }

  /**
   * One check.
   *
   * @param name its name, which does not change
   * @param passed whether it passed
   * @param detail what was found, one sentence
   */
  public record Check(String name, boolean passed, String detail) {}

  /** Whether every check passed. */
  public boolean holds() {
    return checks.stream().allMatch(Check::passed);
  }

  /** The check that failed. */
  public Optional<Check> failed() {
    return checks.stream().filter(check -> !check.passed()).findFirst();
  }
}
