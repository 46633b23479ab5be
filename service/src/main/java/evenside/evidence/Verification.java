package evenside.evidence;

import java.util.List;
import java.util.Optional;

/**
 * What the check of a bundle found, in the order it looked. It ends with the first check that
 * fails.
 *
 * @param checks every check that was made
 * @param notCovered what the bundle holds and no check covers, in words; empty once one failed
 */
public record Verification(List<Check> checks, List<String> notCovered) {
  /** Keeps its own copies. */
  public Verification {
    checks = List.copyOf(checks);
    notCovered = List.copyOf(notCovered);
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
