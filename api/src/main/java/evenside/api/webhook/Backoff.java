package evenside.api.webhook;

import java.time.Duration;
import java.util.random.RandomGenerator;

/**
 * How long to wait after a failed attempt: twice as long each time, between a first and a longest
 * pause. Up to a quarter is taken off by chance, so that many do not come at once.
 *
 * @param first after the first attempt
 * @param longest at most
 */
record Backoff(Duration first, Duration longest) {
  /** Few attempts a day once a receiver is gone for long. */
  static final Backoff DEFAULT = new Backoff(Duration.ofSeconds(5), Duration.ofHours(1));

  private static final int MOST_DOUBLINGS = 30;

  /** After an attempt; the first is 1. */
  Duration after(int attempt, RandomGenerator random) {
    long doubled = first.toMillis() << Math.min(attempt - 1, MOST_DOUBLINGS);
    long pause = Math.min(doubled, longest.toMillis());
    return Duration.ofMillis(pause - random.nextLong(pause / 4 + 1));
  }
}
