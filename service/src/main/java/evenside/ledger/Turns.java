package evenside.ledger;

import evenside.store.database.StoreConflict;
import evenside.store.database.StoreException;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Consumer;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * Lets one thread at a time append, for itself and all who wait. Whoever gets the lock takes
 * everything that waits; when the others get it, their work is done already. So the more clients,
 * the more records per transaction, sync and signature.
 */
final class Turns {
  private final int mostAtOnce;
  private final Consumer<List<Waiting<?>>> turn;
  private final ConcurrentLinkedQueue<Waiting<?>> queue = new ConcurrentLinkedQueue<>();
  private final ReentrantLock lock = new ReentrantLock(true);

  /**
   * Turns over one ledger.
   *
   * @param turn does all work it is given; what it throws is thrown to everyone whose work it was
   */
  Turns(int mostAtOnce, Consumer<List<Waiting<?>>> turn) {
    this.mostAtOnce = mostAtOnce;
    this.turn = turn;
  }

  /** Work that waits, and what came of it. */
  static final class Waiting<T> {
    private final Function<Appending, T> work;
    private boolean ended;
    private boolean broke;
    private @Nullable T result;
    private @Nullable RuntimeException failure;
    private @Nullable Appending appending;
    private @Nullable String checkpoint;

    private Waiting(Function<Appending, T> work) {
      this.work = work;
    }

    /** Does the work; if it fails, all that is done in the same transaction fails. */
    boolean plainly(Appending with) {
      broke = true;
      result = work.apply(with);
      appending = with;
      broke = false;
      return true;
    }

    /** Whether it was this work that failed when it was done plainly. */
    boolean broke() {
      return broke;
    }

    /** Does the work so that, if it fails, its rows are gone again and those of others stay. */
    boolean apart(Appending with) {
      try {
        result = with.writing().attempt(() -> work.apply(with));
        appending = with;
        return true;
      } catch (RuntimeException e) {
        if (e instanceof StoreConflict lost && lost.kind() == StoreConflict.Kind.ROLLED_BACK) {
          // Not its rows alone are gone, but all of the transaction: nothing may be acknowledged.
          throw e;
        }
        failure = e;
        return false;
      }
    }

    /** The head that covers its entries, signed and kept. */
    void covered(String signed) {
      checkpoint = signed;
    }

    private Appended<T> outcome() {
      if (failure != null) {
        throw failure;
      }
      Optional<Receipt> receipt = Optional.empty();
      if (checkpoint != null && appending != null && appending.last().isPresent()) {
        receipt = Optional.of(new Receipt(appending.last().getAsLong(), checkpoint));
      }
      return new Appended<>(Objects.requireNonNull(result), receipt);
    }
  }

  <T> Appended<T> take(Function<Appending, T> work) {
    Waiting<T> mine = new Waiting<>(work);
    queue.add(mine);
    lock.lock();
    try {
      while (!mine.ended) {
        run(next());
      }
    } finally {
      lock.unlock();
    }
    return mine.outcome();
  }

  private List<Waiting<?>> next() {
    List<Waiting<?>> batch = new ArrayList<>();
    while (batch.size() < mostAtOnce && !queue.isEmpty()) {
      batch.add(queue.remove());
    }
    return batch;
  }

  private void run(List<Waiting<?>> batch) {
    RuntimeException failed = new StoreException("appending was broken off");
    try {
      turn.accept(batch);
      failed = null;
    } catch (RuntimeException e) {
      failed = e;
    } finally {
      for (Waiting<?> waiting : batch) {
        waiting.ended = true;
        if (failed != null) {
          waiting.failure = failed;
        }
      }
    }
  }
}
