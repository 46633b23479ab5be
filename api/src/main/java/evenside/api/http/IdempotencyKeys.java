package evenside.api.http;

import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import java.util.List;
import java.util.regex.Pattern;

/**
 * Reads {@code Idempotency-Key}: a string of Structured Fields (RFC 8941), so quoted, or the same
 * characters bare. Both forms are the same key.
 */
public final class IdempotencyKeys {
  private static final int MAX_LENGTH = 128;
  private static final Pattern QUOTED = Pattern.compile("\"((?:[ !#-\\[\\]-~]|\\\\[\"\\\\])*)\"");
  private static final Pattern BARE = Pattern.compile("[!#-+\\--~&&[^\\\\;]]+");
  private static final Pattern ESCAPE = Pattern.compile("\\\\(.)");

  private IdempotencyKeys() {}

  /** The key, or a problem that says why there is none. */
  public static String read(List<String> values) {
    if (values.isEmpty()) {
      throw Problem.of(
              ProblemType.IDEMPOTENCY_KEY_MISSING,
              "Send an Idempotency-Key header with a fresh value, best a random UUID.")
          .asException();
    }
    String key = values.size() == 1 ? text(values.get(0).strip()) : "";
    if (key.isEmpty() || key.length() > MAX_LENGTH) {
      throw Problem.of(
              ProblemType.BAD_IDEMPOTENCY_KEY,
              "Idempotency-Key must be one key of 1 to "
                  + MAX_LENGTH
                  + " visible ASCII characters, bare or in double quotes; a comma, a semicolon or"
                  + " a space needs the quotes.")
          .asException();
    }
    return key;
  }

  private static String text(String value) {
    var quoted = QUOTED.matcher(value);
    if (quoted.matches()) {
      return ESCAPE.matcher(quoted.group(1)).replaceAll("$1");
    }
    return BARE.matcher(value).matches() ? value : "";
  }
}
