package evenside.api.bulk;

import evenside.api.access.Caller;
import java.io.IOException;
import java.io.OutputStream;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.Executor;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;

/**
 * The lines of one body while they are done: many at once, so that they share commits, those of one
 * case one after the other. Answers come in the order of the lines. For one thread.
 */
final class Lines {
  private static final int WORKERS = 24;

  /** Lines in hand: enough that commits are shared, and no more of the body than that in memory. */
  private static final int MOST_IN_HAND = 256;

  private static final Executor POOL = pool();

  private final LineDesk desk;
  private final Caller caller;
  private final String id;
  private final Deque<CompletableFuture<LineResult>> inHand = new ArrayDeque<>();
  private final Map<String, CompletableFuture<LineResult>> lastOfQueue = new HashMap<>();
  private final List<LineResult> done = new ArrayList<>();

  /**
   * Starts on a body.
   *
   * @param id of the request or job, which problems name
   */
  Lines(LineDesk desk, Caller caller, String id) {
    this.desk = desk;
    this.caller = caller;
    this.id = id;
  }

  private static Executor pool() {
    ThreadPoolExecutor pool =
        new ThreadPoolExecutor(
            WORKERS,
            WORKERS,
            10,
            TimeUnit.SECONDS,
            new LinkedBlockingQueue<>(),
            work -> {
              Thread thread = new Thread(work, "lines");
              thread.setDaemon(true);
              return thread;
            });
    pool.allowCoreThreadTimeOut(true);
    return pool;
  }

  /** Takes a line into hand; waits while too many are. */
  void add(Line line) {
    while (inHand.size() >= MOST_IN_HAND) {
      done.add(inHand.remove().join());
    }
    LineDesk.Ready ready = desk.read(caller, id, line);
    CompletableFuture<LineResult> before = lastOfQueue.get(ready.queue());
    CompletableFuture<LineResult> mine =
        before == null || before.isDone() || ready.queue().isEmpty()
            ? CompletableFuture.supplyAsync(ready.work(), POOL)
            : before.thenApplyAsync(earlier -> ready.work().get(), POOL);
    if (!ready.queue().isEmpty()) {
      lastOfQueue.put(ready.queue(), mine);
    }
    inHand.add(mine);
  }

  /** How many were taken. */
  int count() {
    return done.size() + inHand.size();
  }

  /** Waits for all and gives their results in the order of the lines. */
  List<LineResult> finish() {
    while (!inHand.isEmpty()) {
      done.add(inHand.remove().join());
    }
    return List.copyOf(done);
  }

  /**
   * Writes the results in the order of the lines, each as soon as it and those before are there.
   */
  void writeTo(OutputStream out) throws IOException {
    for (LineResult result : done) {
      write(result, out);
    }
    while (!inHand.isEmpty()) {
      if (!inHand.element().isDone()) {
        out.flush();
      }
      write(inHand.remove().join(), out);
    }
    out.flush();
  }

  private static void write(LineResult result, OutputStream out) throws IOException {
    out.write(result.json());
    out.write('\n');
  }
}
