package evenside.api.webhook;

import evenside.readiness.Announcement;
import evenside.readiness.Announcements;
import java.io.IOException;
import java.time.Duration;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ThreadLocalRandom;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Empties the queues of announcements, each clinic's by a thread of its own, so that a receiver
 * that is slow or gone holds up nobody else's. A decision does not wait for any of it.
 */
public final class Webhooks implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Webhooks.class);

  /** Longer than sending takes; after that another process may try. */
  private static final Duration LEASE = Sender.TIMEOUT.multipliedBy(3);

  /** Between two clearings of what is not worth telling any more. */
  private static final Duration CLEARING = Duration.ofMinutes(10);

  private final Announcements announcements;
  private final Sender sender;
  private final Limits limits;
  private final CountDownLatch stopped = new CountDownLatch(1);
  private final List<Thread> threads = new ArrayList<>();

  /**
   * What is kept for how long.
   *
   * @param age announcements of older decisions are given up
   * @param most so many of the newest of a clinic wait at most
   * @param backoff between two attempts
   * @param look between two looks at an empty queue
   */
  record Limits(Duration age, int most, Backoff backoff, Duration look) {
    Limits(Duration age, int most) {
      this(age, most, Backoff.DEFAULT, Duration.ofSeconds(1));
    }
  }

  private Webhooks(Announcements announcements, InstantSource clock, Limits limits) {
    this.announcements = announcements;
    this.sender = new Sender(clock);
    this.limits = limits;
  }

  /**
   * Starts to send.
   *
   * @param age announcements of older decisions are given up, with a line in the log
   * @param most so many of the newest of a clinic wait at most
   */
  public static Webhooks start(
      Announcements announcements,
      List<Target> targets,
      InstantSource clock,
      Duration age,
      int most) {
    return start(announcements, targets, clock, new Limits(age, most));
  }

  static Webhooks start(
      Announcements announcements, List<Target> targets, InstantSource clock, Limits limits) {
    Webhooks webhooks = new Webhooks(announcements, clock, limits);
    for (Target target : targets) {
      Thread thread = new Thread(() -> webhooks.run(target), "webhook " + target.clinic());
      thread.setDaemon(true);
      thread.start();
      webhooks.threads.add(thread);
    }
    return webhooks;
  }

  private void run(Target target) {
    long clearAt = System.nanoTime();
    long quietUntil = clearAt;
    try {
      do {
        try {
          if (System.nanoTime() - clearAt >= 0) {
            clear(target.clinic());
            clearAt = System.nanoTime() + CLEARING.toNanos();
          }
          if (System.nanoTime() - quietUntil >= 0) {
            quietUntil = System.nanoTime() + sendWhatIsDue(target).toNanos();
          }
        } catch (RuntimeException e) {
          // The store may be back the next time; until then nothing is lost.
          LOG.warn("webhook of {}: the queue cannot be read", target.clinic(), e);
        }
      } while (!stopped.await(limits.look().toMillis(), TimeUnit.MILLISECONDS));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** How long the receiver asks to be left alone; what waits behind then waits too. */
  private Duration sendWhatIsDue(Target target) throws InterruptedException {
    Duration quiet = Duration.ZERO;
    Optional<Announcement> next = announcements.take(target.clinic(), LEASE);
    while (next.isPresent() && stopped.getCount() > 0) {
      quiet = send(target, next.get());
      if (!quiet.isZero()) {
        return quiet;
      }
      next = announcements.take(target.clinic(), LEASE);
    }
    return quiet;
  }

  /** Sends one; gives how long the receiver asks to be left alone. */
  private Duration send(Target target, Announcement announcement) throws InterruptedException {
    String outcome;
    Duration quiet = Duration.ZERO;
    try {
      Sender.Answer answer = sender.send(target, announcement);
      if (answer.isTaken()) {
        announcements.delivered(announcement);
        return quiet;
      }
      int status = answer.status();
      outcome =
          "status " + status + (status / 100 == 3 ? ", a redirect, which is not followed" : "");
      quiet = answer.retryAfter().orElse(quiet);
    } catch (IOException e) {
      outcome = String.valueOf(e.getMessage());
    }
    postpone(target, announcement, outcome, quiet);
    return quiet;
  }

  /** Never sooner than the receiver asked. */
  private void postpone(Target target, Announcement announcement, String outcome, Duration quiet) {
    Duration own = limits.backoff().after(announcement.attempt(), ThreadLocalRandom.current());
    Duration pause = own.compareTo(quiet) < 0 ? quiet : own;
    announcements.postpone(announcement, pause);
    LOG.warn(
        "webhook of {}: event {} not delivered at attempt {}: {}; again in {} s",
        target.clinic(),
        announcement.id(),
        announcement.attempt(),
        outcome,
        pause.toSeconds());
  }

  private void clear(String clinic) {
    for (UUID decision : announcements.giveUp(clinic, limits.age(), limits.most())) {
      LOG.error(
          "webhook of {}: given up; the receiver was not told of decision {}", clinic, decision);
    }
  }

  /**
   * Lets what is being sent go, to be sent again after the next start. No thread is interrupted: an
   * interrupt inside the embedded database closes its file.
   */
  @Override
  public void close() {
    stopped.countDown();
    sender.close();
    for (Thread thread : threads) {
      try {
        thread.join(Sender.TIMEOUT.toMillis());
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        return;
      }
    }
  }
}
