package evenside.clients;

/** A key that cannot be issued or revoked as asked. The message says why. */
public final class ClientRefusal extends RuntimeException {
  ClientRefusal(String message) {
    super(message);
  }
}
