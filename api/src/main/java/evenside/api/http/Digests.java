package evenside.api.http;

import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** SHA-256 in the forms that headers carry: RFC 9530 fields, and entity tags made of it. */
public final class Digests {
  // A dictionary member of Structured Fields: a byte sequence between colons.
  private static final Pattern SHA_256 = Pattern.compile("(?:^|,)[ \\t]*sha-256=([^,]*)(?=,|$)");
  private static final Pattern BYTES = Pattern.compile(":([A-Za-z0-9+/]{43}=):[ \\t]*(?:;.*)?");

  private Digests() {}

  /** SHA-256 of {@code bytes}. */
  public static byte[] sha256(byte[] bytes) {
    try {
      return MessageDigest.getInstance("SHA-256").digest(bytes);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  /** The value of {@code Repr-Digest} or {@code Content-Digest} for a body with this SHA-256. */
  public static String field(byte[] sha256) {
    return "sha-256=:" + Base64.getEncoder().encodeToString(sha256) + ":";
  }

  /**
   * Holds a body to the digest sent with it. Algorithms other than SHA-256 are passed over, as the
   * RFC allows.
   */
  static void verify(List<String> fields, byte[] body) {
    Matcher member = SHA_256.matcher(String.join(",", fields));
    while (member.find()) {
      Matcher bytes = BYTES.matcher(member.group(1));
      if (!bytes.matches()) {
        throw Problem.of(
                ProblemType.DIGEST_MISMATCH,
                "The SHA-256 sent with the body is not 32 bytes in base64 between colons.")
            .asException();
      }
      if (!MessageDigest.isEqual(Base64.getDecoder().decode(bytes.group(1)), sha256(body))) {
        throw Problem.of(
                ProblemType.DIGEST_MISMATCH,
                "The body of " + body.length + " bytes has another SHA-256 than the one sent.")
            .asException();
      }
    }
  }
}
