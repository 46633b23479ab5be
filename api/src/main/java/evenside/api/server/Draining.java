package evenside.api.server;

/**
 * Whether the service is about to stop. From then on it says so where others ask whether it is
 * ready, and lets go of each connection with the answer to its request; what it accepts meanwhile
 * it still answers.
 */
public final class Draining {
  private volatile boolean begun;

  /** From now on. */
  public void begin() {
    begun = true;
  }

  /** Whether it has begun. */
  public boolean begun() {
    return begun;
  }
}
