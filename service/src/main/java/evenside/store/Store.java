package evenside.store;

import com.zaxxer.hikari.HikariDataSource;
import com.zaxxer.hikari.HikariPoolMXBean;
import evenside.store.database.Connections;
import evenside.store.database.Database;
import evenside.store.database.Databases;
import evenside.store.database.Failures;
import evenside.store.database.GroupSync;
import evenside.store.database.StoreConflict;
import evenside.store.database.StoreException;
import evenside.store.database.StoreInUse;
import evenside.store.database.StoreSettings;
import evenside.store.ledger.LedgerWriting;
import evenside.store.upkeep.BackupFile;
import java.nio.file.Path;
import java.util.concurrent.locks.ReentrantReadWriteLock;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;

/**
 * The record on disk.
 *
 * <p>What {@link #write} returned is committed and synced: it outlives a killed process and a power
 * cut. What {@link #read} returned is too, so that nothing is ever shown that could be taken back,
 * and what either threw, as a refusal tells of what was seen; what {@link #readAhead} returned is
 * when a {@code write} or {@link #settle} that follows returns. A transaction sees one state of all
 * tables. Safe for use by many threads.
 *
 * <p>A thread inside {@code read} or {@code write} must not call either again: it would hold one
 * connection while waiting for another.
 */
public final class Store implements AutoCloseable {
  private final StoreSettings settings;
  private final GroupSync groupSync;

  /** Held shared by every transaction, and alone while the database is closed to be rewritten. */
  private final ReentrantReadWriteLock open = new ReentrantReadWriteLock();

  // Guarded by open.
  private Database database;
  private HikariDataSource pool;
  private Jdbi jdbi;

  private Store(StoreSettings settings, Database database) {
    this.settings = settings;
    this.database = database;
    this.groupSync = new GroupSync(() -> this.database.sync());
    this.pool = Connections.pool(settings, database);
    this.jdbi = Columns.configure(Jdbi.create(pool));
  }

  /**
   * Opens the store, and makes or updates its tables.
   *
   * @param settings where it is
   * @return the store, to be closed
   * @throws StoreException if it cannot be opened, if another process has it open, or if it may
   *     lose acknowledged records and that was not allowed
   */
  public static Store open(StoreSettings settings) {
    Database database = Databases.open(settings);
    try {
      return new Store(settings, database);
    } catch (RuntimeException e) {
      database.close();
      throw e;
    }
  }

  /**
   * Whether another process has an embedded store open.
   *
   * @throws StoreException if it cannot be opened for another reason
   */
  public static boolean isOpenElsewhere(StoreSettings settings) {
    try {
      Databases.connect(settings).close();
      return false;
    } catch (StoreInUse inUse) {
      return true;
    }
  }

  /**
   * Runs one transaction that may add rows. Returns after it is committed and on disk; if anything
   * is thrown, it was rolled back as a whole.
   *
   * @param work what to do; must not keep what it is given
   * @param <T> what it answers
   * @return the answer of the work
   * @throws StoreConflict if it met something that is already there
   * @throws StoreException if the database failed
   */
  public <T> T write(Function<Writing, T> work) {
    return shared(
        () -> {
          T result = commit(handle -> {}, work, Handle::commit);
          groupSync.committed();
          return result;
        });
  }

  /**
   * Like {@link #write}, but each statement sees what was committed before it started: for work
   * that first waits for a lock ({@link LedgerWriting#lock}) and must then see what its holder
   * left. On one state of all tables, as in {@code write}, PostgreSQL would refuse it after the
   * wait.
   *
   * @param work what to do; must not keep what it is given
   * @param <T> what it answers
   * @return the answer of the work
   * @throws StoreConflict if it met something that is already there
   * @throws StoreException if the database failed
   */
  public <T> T writeInTurn(Function<Writing, T> work) {
    return shared(
        () -> {
          T result = commit(handle -> database.seeEachCommit(handle), work, Handle::commit);
          groupSync.committed();
          return result;
        });
  }

  /**
   * Like {@link #write}, but does not wait for the disk: a power cut may take back what no {@code
   * write} followed. For what can be made again or is no loss.
   *
   * @param work what to do; must not keep what it is given
   * @param <T> what it answers
   * @return the answer of the work
   * @throws StoreConflict if it met something that is already there
   * @throws StoreException if the database failed
   */
  public <T> T note(Function<Writing, T> work) {
    return shared(
        () -> {
          T result = commit(handle -> {}, work, handle -> database.commitUnhurried(handle));
          groupSync.withdraw();
          return result;
        });
  }

  /** Commits, announced to the group sync; the caller says what becomes of the announcement. */
  private <T> T commit(
      Consumer<Handle> prepare, Function<Writing, T> work, Consumer<Handle> commit) {
    try (Handle handle = jdbi.open()) {
      T result =
          inTransaction(
              handle,
              () -> {
                prepare.accept(handle);
                return work.apply(new Writing(handle));
              });
      groupSync.announce();
      try {
        commit.accept(handle);
      } catch (RuntimeException e) {
        groupSync.withdraw();
        throw e;
      }
      return result;
    } catch (JdbiException e) {
      throw Failures.explain(e);
    } catch (RuntimeException e) {
      // A refusal tells of what was seen too.
      groupSync.settle();
      throw e;
    }
  }

  /**
   * Runs one transaction that only reads, on one state of all tables.
   *
   * @param work what to do; must not keep what it is given
   * @param <T> what it answers
   * @return the answer of the work
   * @throws StoreException if the database failed
   */
  public <T> T read(Function<Reading, T> work) {
    return shared(
        () -> {
          try {
            return look(work);
          } finally {
            groupSync.settle();
          }
        });
  }

  /**
   * Like {@link #read}, but does not wait for the disk: for what nobody is told of before a {@link
   * #write} that follows, or before {@link #settle}.
   *
   * @param work what to do; must not keep what it is given
   * @param <T> what it answers
   * @return the answer of the work
   * @throws StoreException if the database failed
   */
  public <T> T readAhead(Function<Reading, T> work) {
    return shared(() -> look(work));
  }

  /** Returns when everything that this thread may have read is on disk. */
  public void settle() {
    shared(
        () -> {
          groupSync.settle();
          return true;
        });
  }

  private <T> T look(Function<Reading, T> work) {
    try (Handle handle = jdbi.open()) {
      T result = inTransaction(handle, () -> work.apply(new Reading(handle)));
      handle.commit();
      return result;
    } catch (JdbiException e) {
      throw Failures.explain(e);
    }
  }

  /**
   * Leaves nothing of removed rows in the files of the database, where they are this store's own
   * (H2): every transaction waits meanwhile, for as long as it takes to write the file anew. A
   * database server does that by itself or when its keeper asks ({@code vacuum full}).
   *
   * @throws StoreException if the database could not be opened again
   */
  public void forget() {
    open.writeLock().lock();
    try {
      if (!database.rewrites()) {
        return;
      }
      pool.close();
      database.rewrite();
      database = Databases.connect(settings);
      pool = Connections.pool(settings, database);
      jdbi = Columns.configure(Jdbi.create(pool));
    } finally {
      open.writeLock().unlock();
    }
  }

  /**
   * Writes a copy of an embedded store to a file, synced, while others read and write: everything
   * that was acknowledged before is in it. Only its owner may read it.
   *
   * @param file a new file
   * @throws StoreException if the file is there already or cannot be written, or if the store is a
   *     database server, which has its own tools
   */
  public void backUp(Path file) {
    shared(
        () -> {
          BackupFile.write(file, part -> database.backUp(part));
          return file;
        });
  }

  /**
   * Connections to the database.
   *
   * @param busy that serve a transaction
   * @param idle that wait for one
   * @param waiting transactions that wait for a connection
   */
  public record PoolUse(int busy, int idle, int waiting) {}

  /** How the pool of connections is used now. */
  public PoolUse poolUse() {
    return shared(
        () -> {
          HikariPoolMXBean now = pool.getHikariPoolMXBean();
          return new PoolUse(
              now.getActiveConnections(),
              now.getIdleConnections(),
              now.getThreadsAwaitingConnection());
        });
  }

  private <T> T shared(Supplier<T> transaction) {
    open.readLock().lock();
    try {
      return transaction.get();
    } finally {
      open.readLock().unlock();
    }
  }

  private static <T> T inTransaction(Handle handle, Supplier<T> work) {
    handle.begin();
    try {
      return work.get();
    } catch (Throwable e) {
      rollBack(handle, e);
      throw e;
    }
  }

  private static void rollBack(Handle handle, Throwable reason) {
    try {
      handle.rollback();
    } catch (JdbiException e) {
      reason.addSuppressed(e);
    }
  }

  /** Waits for no one: close it after the last request. */
  @Override
  public void close() {
    pool.close();
    database.close();
  }
}
