package evenside.api.webhook;

import java.net.URI;

/**
 * Where the announcements of a clinic go.
 *
 * @param clinic the clinic
 * @param url address of the receiver; https, or http to this machine
 * @param keyId name of the secret, as both sides know it
 * @param secret signs the announcements
 */
public record Target(String clinic, URI url, String keyId, Secret secret) {
  /** Bytes that are never shown. */
  public static final class Secret {
    private final byte[] bytes;

    /** Keeps its own copy. */
    public Secret(byte[] bytes) {
      this.bytes = bytes.clone();
    }

    byte[] bytes() {
      return bytes.clone();
    }

    @Override
    public String toString() {
      return "********";
    }
  }
}
