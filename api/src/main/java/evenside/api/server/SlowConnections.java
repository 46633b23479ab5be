package evenside.api.server;

import java.time.Duration;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import org.eclipse.jetty.io.Connection;
import org.eclipse.jetty.util.component.AbstractLifeCycle;
import org.eclipse.jetty.util.thread.ScheduledExecutorScheduler;
import org.eclipse.jetty.util.thread.Scheduler;

/**
 * Cuts off whoever takes too long over one request. The idle time alone does not: a byte now and
 * then, sent or fetched, keeps a connection alive, and a few hundred such connections shut
 * everybody else out.
 */
final class SlowConnections extends AbstractLifeCycle implements Connection.Listener {
  private final long mostNanos;
  private final Duration every;
  private final Scheduler scheduler = new ScheduledExecutorScheduler("slow-connections", true);
  private final Map<Connection, Progress> open = new ConcurrentHashMap<>();

  /** Answers given and bytes taken until the request that is on its way, and when it began. */
  private record Progress(long answers, long bytes, long since) {
    static Progress now(Connection connection) {
      return new Progress(connection.getMessagesOut(), connection.getBytesIn(), System.nanoTime());
    }
  }

  /**
   * A watch.
   *
   * @param most longest time for one request and its answer
   */
  SlowConnections(Duration most) {
    this.mostNanos = most.toNanos();
    this.every = Duration.ofNanos(Math.max(most.toNanos() / 10, 50_000_000));
  }

  @Override
  public void onOpened(Connection connection) {
    open.put(connection, Progress.now(connection));
  }

  @Override
  public void onClosed(Connection connection) {
    open.remove(connection);
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

  /** Why a connection was cut off; it is the client's doing, so it carries no trace. */
  private static final class SlowException extends java.io.IOException {
    SlowException() {
      super("a request took too long");
    }
  }
}
