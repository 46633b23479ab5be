package evenside.api.fhir;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;

/** Bytes inside a resource. */
final class FhirBytes {
  private FhirBytes() {}

  static String base64(String text) {
    return base64(text.getBytes(StandardCharsets.UTF_8));
  }

  static String base64(byte[] bytes) {
    return Base64.getEncoder().encodeToString(bytes);
  }

  /** SHA-1, which the data type Attachment fixes for its hash; it proves nothing here. */
  static byte[] sha1(byte[] bytes) {
    try {
      return MessageDigest.getInstance("SHA-1").digest(bytes);
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException("every Java has SHA-1", impossible);
    }
  }
}
