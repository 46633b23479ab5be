package evenside.api.http;

import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;

/**
 * Lets only so many large bodies in at once as the memory holds: two hundred connections with the
 * largest body each, and the trees made of them, would fill any usual heap. Most bodies are small
 * and pass by. Safe for use by many threads.
 */
final class LargeBodies {
  /** A whole test day with all its trials takes less. */
  private static final int SMALL_BYTES = 64 * 1024;

  /** What a body of the largest size comes to, with its text and its tree. */
  private static final long BYTES_EACH = 24L << 20;

  private static final int MOST = 64;
  private static final int LONGEST_WAIT_SECONDS = 10;

  private final Semaphore places;

  /** As many as this process has memory for. */
  LargeBodies() {
    this((int) Math.min(MOST, Math.max(2, Runtime.getRuntime().maxMemory() / BYTES_EACH)));
  }

  LargeBodies(int places) {
    this.places = new Semaphore(places, true);
  }

  /**
   * Serves a request when there is room for its body.
   *
   * @param announced length of the body; negative if it is not known
   * @throws evenside.api.problem.ProblemException 503 if there was no room for too long
   */
  <T> T within(long announced, Supplier<T> service) {
    if (announced >= 0 && announced <= SMALL_BYTES) {
      return service.get();
    }
    if (!enter()) {
      throw Problem.of(ProblemType.UNAVAILABLE, "Too many large bodies are being read.")
          .withHeader("Retry-After", Integer.toString(LONGEST_WAIT_SECONDS))
          .asException();
    }
    try {
      return service.get();
    } finally {
      places.release();
    }
  }

  private boolean enter() {
    try {
      return places.tryAcquire(LONGEST_WAIT_SECONDS, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }
}
