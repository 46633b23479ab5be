package evenside.store.database;

import java.sql.SQLException;
import java.util.Optional;
import java.util.Set;
import org.h2.api.ErrorCode;
import org.jdbi.v3.core.JdbiException;
import org.jdbi.v3.core.statement.Update;

/** Turns what JDBI throws into what the store throws. */
public final class Failures {
  private static final String UNIQUE_VIOLATION = "23505";

  /** Class 40 of the SQL standard: serialization failures and deadlocks. */
  private static final String TRANSACTION_ROLLBACK = "40";

  private static final String LOCK_NOT_AVAILABLE = "55P03";
  private static final Set<Integer> BUSY_H2_CODES =
      Set.of(ErrorCode.LOCK_TIMEOUT_1, ErrorCode.CONCURRENT_UPDATE_1);

  private Failures() {}

  /**
   * Adds a row.
   *
   * @param ifTaken what it says of a row with the same key that is there
   * @throws StoreConflict if there is one
   */
  public static void insert(Update insert, StoreConflict.Kind ifTaken) {
    try {
      insert.execute();
    } catch (JdbiException e) {
      if (isTaken(e)) {
        throw new StoreConflict(ifTaken);
      }
      throw e;
    }
  }

  private static boolean isTaken(JdbiException e) {
    return sql(e).map(sql -> UNIQUE_VIOLATION.equals(sql.getSQLState())).orElse(false);
  }

  /**
   * Leaves out JDBI's own layer, and both messages: a database repeats the value it could not take,
   * and JDBI repeats every value of the statement.
   */
  public static StoreException explain(JdbiException e) {
    Optional<SQLException> sql = sql(e);
    if (sql.isEmpty()) {
      return new StoreException("the database failed: " + e.getClass().getSimpleName(), e);
    }
    if (isRolledBack(sql.get())) {
      return new StoreConflict(StoreConflict.Kind.ROLLED_BACK);
    }
    if (isBusy(sql.get())) {
      return new StoreConflict(StoreConflict.Kind.BUSY);
    }
    return new StoreException(
        "the database failed: SQLSTATE %s, code %d"
            .formatted(sql.get().getSQLState(), sql.get().getErrorCode()),
        sql.get());
  }

  private static boolean isBusy(SQLException e) {
    return LOCK_NOT_AVAILABLE.equals(e.getSQLState()) || BUSY_H2_CODES.contains(e.getErrorCode());
  }

  private static boolean isRolledBack(SQLException e) {
    String state = e.getSQLState();
    return state != null && state.startsWith(TRANSACTION_ROLLBACK);
  }

  private static Optional<SQLException> sql(Throwable e) {
    for (Throwable t = e; t != null; t = t.getCause()) {
      if (t instanceof SQLException sql) {
        return Optional.of(sql);
      }
    }
    return Optional.empty();
  }
}
