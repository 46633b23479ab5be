package evenside.api.server;

import java.time.Duration;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import org.eclipse.jetty.io.Connection;
import org.eclipse.jetty.io.ssl.SslConnection;
import org.eclipse.jetty.util.component.AbstractLifeCycle;
import org.eclipse.jetty.util.thread.ScheduledExecutorScheduler;
import org.eclipse.jetty.util.thread.Scheduler;

/**
 * Cuts off whoever takes too long over one request. The idle time alone does not: a byte now and
 * then, sent or fetched, keeps a connection alive, and a few hundred such connections shut
 * everybody else out. And while all places are taken, so that nobody new gets in, it cuts off at
 * once who asks nothing.
 */
final class SlowConnections extends AbstractLifeCycle implements Connection.Listener {
  private static final Duration QUIET_WHEN_FULL = Duration.ofSeconds(2);
  private static final Duration LONGEST_PAUSE = Duration.ofSeconds(1);

  private final long mostNanos;
  private final int places;
  private final Duration every;
  private final Scheduler scheduler = new ScheduledExecutorScheduler("slow-connections", true);
  private final Map<Connection, Progress> open = new ConcurrentHashMap<>();
  private final Map<Connection, Quiet> quiet = new ConcurrentHashMap<>();

  /** Answers given and bytes taken until the request that is on its way, and when it began. */
  private record Progress(long answers, long bytes, long since) {
    static Progress now(Connection connection) {
      return new Progress(connection.getMessagesOut(), connection.getBytesIn(), System.nanoTime());
    }
  }

  /** Bytes taken, and since when there were no more. */
  private record Quiet(long bytes, long since) {
    static Quiet now(Connection connection) {
      return new Quiet(connection.getBytesIn(), System.nanoTime());
    }
  }

  /**
   * A watch.
   *
   * @param most longest time for one request and its answer
   * @param places most connections at once
   */
  SlowConnections(Duration most, int places) {
    this.mostNanos = most.toNanos();
    this.places = places;
    long pause = Math.min(most.toNanos() / 10, LONGEST_PAUSE.toNanos());
    this.every = Duration.ofNanos(Math.max(pause, 50_000_000));
  }

  @Override
  public void onOpened(Connection connection) {
    open.put(connection, Progress.now(connection));
    // Below one that speaks HTTP there may be one that speaks TLS, which counts no messages.
    if (!(connection instanceof SslConnection)) {
      quiet.put(connection, Quiet.now(connection));
    }
  }

  @Override
  public void onClosed(Connection connection) {
    open.remove(connection);
    quiet.remove(connection);
  }

  @Override
  protected void doStart() throws Exception {
    scheduler.start();
    again();
  }

  @Override
  protected void doStop() throws Exception {
    scheduler.stop();
  }

  private void again() {
    scheduler.schedule(
        () -> {
          look();
          makeRoom();
          again();
        },
        every.toMillis(),
        TimeUnit.MILLISECONDS);
  }

  private void look() {
    long now = System.nanoTime();
    open.forEach(
        (connection, before) -> {
          boolean waiting =
              connection.getMessagesOut() != before.answers()
                  || connection.getBytesIn() == before.bytes();
          if (waiting) {
            open.replace(connection, before, Progress.now(connection));
          } else if (now - before.since() > mostNanos) {
            connection.getEndPoint().close(new SlowException());
          }
        });
  }

  /** A request that is being answered keeps its place, however long that takes. */
  private void makeRoom() {
    long now = System.nanoTime();
    boolean full = quiet.size() >= places;
    quiet.forEach(
        (connection, before) -> {
          if (connection.getBytesIn() != before.bytes()) {
            quiet.replace(connection, before, Quiet.now(connection));
          } else if (full
              && connection.getMessagesIn() == connection.getMessagesOut()
              && now - before.since() > QUIET_WHEN_FULL.toNanos()) {
            connection.getEndPoint().close(new SlowException());
          }
        });
  }

  /** Why a connection was cut off; it is the client's doing, so it carries no trace. */
  private static final class SlowException extends java.io.IOException {
    SlowException() {
      super("a request took too long");
    }
  }
}
