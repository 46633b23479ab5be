package evenside.store;

/** Another process has the store open. */
final class StoreInUse extends StoreException {
  StoreInUse(String message, Throwable cause) {
    super(message, cause);
  }
}
