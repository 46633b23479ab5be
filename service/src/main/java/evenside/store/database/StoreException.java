package evenside.store.database;

/**
 * The store could not be opened, or a transaction failed for a reason that the request did not
 * cause. The message says what happened and what to do, and holds no clinical content.
 */
public class StoreException extends RuntimeException {
  /**
   * Makes the exception.
   *
   * @param message what happened and what to do
   */
  public StoreException(String message) {
    super(message);
  }

  /**
   * Makes the exception.
   *
   * @param message what happened and what to do
   * @param cause what the database said
   */
  public StoreException(String message, Throwable cause) {
    super(message, cause);
  }
}
