package evenside.store.database;

import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;
import org.jspecify.annotations.Nullable;

/**
 * Makes commits durable, many with one sync of the disk.
 *
 * <p>A commit of H2 is in memory until a sync writes it and waits for the disk, which costs far
 * more than the commit. So a thread that has committed draws a ticket. If no sync is running it
 * starts one, which covers every ticket drawn so far, as those commits were made before it started.
 * If one is running, that one may have passed this commit's pages already; the thread waits, and
 * the next sync covers it and all others who came meanwhile. The more writers, the more commits per
 * sync.
 *
 * <p>A commit can be seen by readers before it is synced. A reader that acted on it, for instance
 * by answering a repeated request, would acknowledge what a power cut takes back. {@link #settle}
 * closes that gap: after {@link #announce} and until the sync, readers sync too.
 *
 * <p>After a failed sync nothing can be said about earlier writes (operating systems drop the pages
 * that they could not write, and the next sync succeeds), so every later call fails until the store
 * is opened again.
 */
public final class GroupSync {
  private final Runnable disk;
  private final AtomicInteger unsynced = new AtomicInteger();
  private final ReentrantLock lock = new ReentrantLock();
  private final Condition ended = lock.newCondition();

  // Guarded by lock.
  private long drawn;
  private long covered;
  private boolean syncing;
  private @Nullable RuntimeException failure;

  /**
   * A group over one disk.
   *
   * @param disk syncs it; never run by two threads at once
   */
  public GroupSync(Runnable disk) {
    this.disk = disk;
  }

  /** Says that a commit is about to be made; {@link #committed} or {@link #withdraw} follows. */
  public void announce() {
    unsynced.incrementAndGet();
  }

  /** Takes an announcement back: the commit was not made. */
  public void withdraw() {
    unsynced.decrementAndGet();
  }

  /** Returns when the announced commit, which has been made, is on disk. */
  public void committed() {
    sync();
    unsynced.decrementAndGet();
  }

  /** Returns when everything that this thread may have read is on disk. */
  public void settle() {
    if (unsynced.get() > 0) {
      sync();
    }
  }

  private void sync() {
    lock.lock();
    try {
      long ticket = ++drawn;
      while (covered < ticket) {
        if (failure != null) {
          throw new StoreException(
              "the disk failed to sync; restart after checking the disk and its free space",
              failure);
        }
        if (syncing) {
          ended.awaitUninterruptibly();
        } else {
          lead();
        }
      }
    } finally {
      lock.unlock();
    }
  }

  /** Syncs for all tickets drawn so far. Called with the lock, which is let go meanwhile. */
  private void lead() {
    long upTo = drawn;
    syncing = true;
    RuntimeException failed = null;
    lock.unlock();
    try {
      disk.run();
    } catch (RuntimeException e) {
      failed = e;
    } finally {
      lock.lock();
      syncing = false;
      ended.signalAll();
    }
    if (failed == null) {
      covered = upTo;
    } else {
      failure = failed;
    }
  }
}
