package evenside.clients;

/**
 * A key that was just issued.
 *
 * @param key what is known of it
 * @param token what its client sends as bearer token; kept nowhere, so shown now or never
 */
public record IssuedKey(ClientKey key, String token) {
  /** Without the token. */
  @Override
  public String toString() {
    return "IssuedKey[" + key + "]";
  }
}
