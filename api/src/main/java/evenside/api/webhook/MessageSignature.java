package evenside.api.webhook;

import java.nio.charset.StandardCharsets;
import java.security.InvalidKeyException;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.Map;
import java.util.stream.Collectors;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * An HTTP message signature.
 *
 * <p>Shape: HMAC with SHA-256 over the signature base, a line for each covered component and one
 * for the parameters. Source: RFC 9421, sections 2.3, 2.5, 3.1 and 3.3.3. Names of components and
 * parameters are taken as they are; what would have to be escaped is not.
 *
 * @param input value of the member in {@code Signature-Input}, with its label
 * @param signature value of the member in {@code Signature}, with its label
 */
record MessageSignature(String input, String signature) {
  private static final String HMAC = "HmacSHA256";

  /**
   * Signs.
   *
   * @param label of the signature, so that a message may carry several
   * @param components value of each covered component, {@code @method} or the name of a field in
   *     lower case; the order is kept
   * @param parameters text of the signature parameters, such as {@code created=1618884473}
   */
  static MessageSignature of(
      String label, Map<String, String> components, String parameters, byte[] secret) {
    String params = params(components, parameters);
    byte[] mac = hmac(secret, base(components, params));
    return new MessageSignature(
        label + "=" + params, label + "=:" + Base64.getEncoder().encodeToString(mac) + ":");
  }

  /** The value of {@code @signature-params}: what is covered, and how it was signed. */
  static String params(Map<String, String> components, String parameters) {
    return components.keySet().stream()
            .map(name -> '"' + name + '"')
            .collect(Collectors.joining(" ", "(", ")"))
        + ";"
        + parameters;
  }

  /** What is signed. */
  static String base(Map<String, String> components, String params) {
    StringBuilder base = new StringBuilder();
    components.forEach(
        (name, value) -> base.append('"').append(name).append("\": ").append(value).append('\n'));
    return base.append("\"@signature-params\": ").append(params).toString();
  }

  private static byte[] hmac(byte[] secret, String text) {
    try {
      Mac mac = Mac.getInstance(HMAC);
      mac.init(new SecretKeySpec(secret, HMAC));
      return mac.doFinal(text.getBytes(StandardCharsets.UTF_8));
    } catch (NoSuchAlgorithmException | InvalidKeyException e) {
      throw new IllegalStateException("every Java platform has " + HMAC, e);
    }
  }
}
