package evenside.api.access;

import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Arrays;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Function;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A document that is read again while the service runs, once a minute at most. One that cannot be
 * read, or is faulty, leaves the one before in force. While one thread reads, the others go on with
 * what is there. The value stays the same object for as long as the bytes are the same.
 */
final class Refreshed<T> {
  private static final Logger LOG = LoggerFactory.getLogger(Refreshed.class);
  private static final Duration PAUSE = Duration.ofMinutes(1);

  private final Source source;
  private final Function<byte[], T> parser;
  private final Duration oldest;
  private final InstantSource clock;
  private final ReentrantLock reading = new ReentrantLock();

  private volatile T value;
  private volatile Instant tried;

  /** Guarded by {@link #reading}. */
  private byte[] bytes;

  private Refreshed(
      Source source, Function<byte[], T> parser, Duration oldest, InstantSource clock, T value) {
    this.source = source;
    this.parser = parser;
    this.oldest = oldest;
    this.clock = clock;
    this.value = value;
    this.tried = Instant.MIN;
    this.bytes = new byte[0];
  }

  /**
   * A document that must be right now.
   *
   * @param parser reads its bytes; refuses faulty ones by {@link IllegalArgumentException}
   * @param oldest after this time it is read again
   * @throws IllegalArgumentException if it cannot be read, or is faulty
   */
  static <T> Refreshed<T> demanding(
      Source source, Function<byte[], T> parser, Duration oldest, InstantSource clock) {
    try {
      byte[] now = source.read();
      Refreshed<T> document = new Refreshed<>(source, parser, oldest, clock, parser.apply(now));
      document.bytes = now;
      document.tried = clock.instant();
      return document;
    } catch (IOException | IllegalArgumentException e) {
      throw new IllegalArgumentException("cannot use " + source.name() + ": " + reason(e), e);
    }
  }

  /** A document that may come later; until then there is {@code nothing}. */
  static <T> Refreshed<T> hoping(
      Source source, Function<byte[], T> parser, Duration oldest, InstantSource clock, T nothing) {
    Refreshed<T> document = new Refreshed<>(source, parser, oldest, clock, nothing);
    document.readIfOlderThan(Duration.ZERO);
    return document;
  }

  /** The document, not much older than allowed. */
  T get() {
    readIfOlderThan(oldest);
    return value;
  }

  /** The document, for somebody who misses something in it. */
  T again() {
    readIfOlderThan(PAUSE);
    return value;
  }

  private void readIfOlderThan(Duration age) {
    if (isOlderThan(age) && reading.tryLock()) {
      try {
        if (isOlderThan(age)) {
          tried = clock.instant();
          read();
        }
      } finally {
        reading.unlock();
      }
    }
  }

  /** A clock that was put back says nothing about the age, so the document is taken for older. */
  private boolean isOlderThan(Duration age) {
    Instant now = clock.instant();
    return tried.equals(Instant.MIN) || now.isBefore(tried) || !now.isBefore(tried.plus(age));
  }

  private void read() {
    try {
      byte[] now = source.read();
      if (!Arrays.equals(now, bytes)) {
        value = parser.apply(now);
        bytes = now;
        LOG.info("read {}", source.name());
      }
    } catch (IOException | IllegalArgumentException e) {
      LOG.warn("{} could not be read anew and stays as it was: {}", source.name(), reason(e));
    }
  }

  private static String reason(Exception e) {
    return e instanceof IllegalArgumentException
        ? String.valueOf(e.getMessage())
        : e.getClass().getSimpleName() + ": " + e.getMessage();
  }
}
