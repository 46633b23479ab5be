package evenside.api.access;

import evenside.document.Document;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.InstantSource;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * What was found out about tokens, for a time. Holds the SHA-256 of a token and never the token,
 * and no more than {@value #MOST} of them: the one not asked for longest gives way.
 */
final class Remembered<T> {
  private static final int MOST = 10_000;

  private final InstantSource clock;

  /** In the order of use. Guarded by itself. */
  private final Map<String, Entry<T>> entries = new LinkedHashMap<>(16, 0.75f, true);

  /**
   * What was found out.
   *
   * @param from when; a clock that shows an earlier time was put back, and would keep it too long
   */
  private record Entry<T>(T value, Instant from, Instant until) {
    boolean holds(Instant now) {
      return !now.isBefore(from) && now.isBefore(until);
    }
  }

  Remembered(InstantSource clock) {
    this.clock = clock;
  }

  Optional<T> get(String token) {
    String hash = hash(token);
    synchronized (entries) {
      Entry<T> entry = entries.get(hash);
      if (entry == null) {
        return Optional.empty();
      }
      if (entry.holds(clock.instant())) {
        return Optional.of(entry.value());
      }
      entries.remove(hash);
      return Optional.empty();
    }
  }

  void put(String token, T value, Instant until) {
    String hash = hash(token);
    Entry<T> entry = new Entry<>(value, clock.instant(), until);
    synchronized (entries) {
      entries.put(hash, entry);
      if (entries.size() > MOST) {
        entries.remove(entries.keySet().iterator().next());
      }
    }
  }

  private static String hash(String token) {
    return Document.sha256(token.getBytes(StandardCharsets.UTF_8));
  }
}
