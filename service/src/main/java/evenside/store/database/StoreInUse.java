package evenside.store.database;

/** Another process has the store open. */
public final class StoreInUse extends StoreException {
  StoreInUse(String message, Throwable cause) {
    super(message, cause);
  }
}
