package evenside.clients;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.HexFormat;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The text of a key: {@code evk_}, its id, and 256 random bits. The prefix lets a scanner for
 * leaked secrets find it, and tells it from an access token.
 *
 * @param id names the key; 64 random bits in hexadecimal
 * @param secret 256 random bits in base64url
 */
record KeyToken(String id, String secret) {
  private static final Pattern FORM = Pattern.compile("evk_([0-9a-f]{16})_([A-Za-z0-9_-]{43})");
  private static final int ID_BYTES = 8;
  private static final int SECRET_BYTES = 32;

  static KeyToken random(SecureRandom random) {
    byte[] id = new byte[ID_BYTES];
    byte[] secret = new byte[SECRET_BYTES];
    random.nextBytes(id);
    random.nextBytes(secret);
    return new KeyToken(
        HexFormat.of().formatHex(id),
        Base64.getUrlEncoder().withoutPadding().encodeToString(secret));
  }

  static Optional<KeyToken> parse(String token) {
    Matcher parts = FORM.matcher(token);
    return parts.matches()
        ? Optional.of(new KeyToken(parts.group(1), parts.group(2)))
        : Optional.empty();
  }

  String text() {
    return "evk_" + id + "_" + secret;
  }

  /** SHA-256 of the secret. With 256 random bits no slow hash is needed. */
  String secretSha256() {
    try {
      MessageDigest sha256 = MessageDigest.getInstance("SHA-256");
      return HexFormat.of().formatHex(sha256.digest(secret.getBytes(StandardCharsets.US_ASCII)));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  /** Compares in a time that does not depend on where the two differ. */
  boolean hasSecret(String sha256) {
    return MessageDigest.isEqual(
        secretSha256().getBytes(StandardCharsets.US_ASCII),
        sha256.getBytes(StandardCharsets.US_ASCII));
  }

  /** Without the secret. */
  @Override
  public String toString() {
    return "KeyToken[" + id + "]";
  }
}
