package evenside.schemas.acceptor;

/** A schema holds something that no check is made of; what it asks must not be passed over. */
final class Unknown extends RuntimeException {

  Unknown(String what) {
    super(what);
  }
}
