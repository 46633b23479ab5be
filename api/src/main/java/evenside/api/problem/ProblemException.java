package evenside.api.problem;

/** Ends a request with a problem. */
public final class ProblemException extends RuntimeException {
  private final transient Problem problem;

  ProblemException(Problem problem) {
    // Expected and answered: no stack trace is worth its time.
    super(problem.detail(), null, false, false);
    this.problem = problem;
  }

  /** What went wrong. */
  public Problem problem() {
    return problem;
  }
}
