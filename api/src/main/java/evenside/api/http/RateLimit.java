package evenside.api.http;

import evenside.api.access.Caller;
import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;

/**
 * A bucket of tokens for each client. A call takes one; they come back at a steady rate, up to the
 * size of the bucket. One client's empty bucket is nothing to another. Everybody without
 * credentials is one client. Safe for use by many threads.
 */
public final class RateLimit {
  /** Lets everything through. */
  public static final RateLimit NONE = new RateLimit(0, 0, System::nanoTime);

  private static final double NANOS = 1e9;

  private final int perSecond;
  private final int most;
  private final LongSupplier clock;
  private final Map<String, Bucket> buckets = new ConcurrentHashMap<>();

  private record Bucket(double tokens, long filledAt, boolean granted) {}

  /**
   * A limit.
   *
   * @param perSecond calls a second of one client in the long run; 0 for any number
   * @param most calls of one client at once, after a rest
   * @param clock nanoseconds that only grow
   */
  public RateLimit(int perSecond, int most, LongSupplier clock) {
    this.perSecond = perSecond;
    this.most = most;
    this.clock = clock;
  }

  /**
   * Counts a call.
   *
   * @throws evenside.api.problem.ProblemException 429 with {@code Retry-After} if it is too many
   */
  void take(Caller caller) {
    if (perSecond == 0) {
      return;
    }
    // A name may exist in two clinics.
    String client = caller.clinic().orElse("") + "/" + caller.client();
    Bucket bucket = buckets.compute(client, (name, before) -> take(before));
    if (!bucket.granted()) {
      long seconds = (long) Math.ceil((1 - bucket.tokens()) / perSecond);
      throw Problem.of(
              ProblemType.TOO_MANY_REQUESTS,
              "A client may send " + perSecond + " requests a second, and " + most + " at once.")
          .withHeader("Retry-After", Long.toString(Math.max(1, seconds)))
          .asException();
    }
  }

  private Bucket take(@Nullable Bucket before) {
    long now = clock.getAsLong();
    double tokens =
        before == null
            ? most
            : Math.min(most, before.tokens() + (now - before.filledAt()) / NANOS * perSecond);
    return tokens >= 1 ? new Bucket(tokens - 1, now, true) : new Bucket(tokens, now, false);
  }
}
