package evenside.api.http;

import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;

/** Reads a query string, and refuses what could be read in two ways. */
final class Query {
  private static final Pattern PLAIN_NAME = Pattern.compile("[A-Za-z0-9_.-]{1,64}");

  private Query() {}

  /**
   * The parameters by name, in the order sent.
   *
   * @param query the query string as sent, without its question mark; may be empty
   * @param known the names that the route takes
   */
  static Map<String, String> read(String query, Set<String> known) {
    Map<String, String> parameters = new LinkedHashMap<>();
    for (String pair : query.split("&", -1)) {
      if (pair.isEmpty()) {
        continue;
      }
      int equals = pair.indexOf('=');
      String name = decode(equals < 0 ? pair : pair.substring(0, equals));
      requireKnown(name, known);
      String value = equals < 0 ? "" : decode(pair.substring(equals + 1));
      if (parameters.put(name, value) != null) {
        throw bad("The query parameter " + name + " is given twice.");
      }
    }
    return parameters;
  }

  private static void requireKnown(String name, Set<String> known) {
    if (!known.contains(name)) {
      String which = PLAIN_NAME.matcher(name).matches() ? name : "with special characters";
      String instead =
          known.isEmpty()
              ? "this path takes none"
              : "this path takes " + String.join(", ", new TreeSet<>(known));
      throw Problem.of(
              ProblemType.UNKNOWN_PARAMETER,
              "The query parameter " + which + " is unknown; " + instead + ".")
          .asException();
    }
  }

  private static String decode(String text) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream(text.length());
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c == '%') {
        bytes.write(hexByte(text, i + 1));
        i += 2;
      } else {
        bytes.write(c == '+' ? ' ' : c);
      }
    }
    try {
      return StandardCharsets.UTF_8
          .newDecoder()
          .decode(ByteBuffer.wrap(bytes.toByteArray()))
          .toString();
    } catch (CharacterCodingException e) {
      throw bad("A query parameter is not UTF-8.");
    }
  }

  private static int hexByte(String text, int at) {
    if (at + 2 > text.length()) {
      throw bad("A query parameter ends inside a percent escape.");
    }
    int high = Character.digit(text.charAt(at), 16);
    int low = Character.digit(text.charAt(at + 1), 16);
    if (high < 0 || low < 0) {
      throw bad("A query parameter has a percent sign without two hexadecimal digits.");
    }
    return high * 16 + low;
  }

  private static RuntimeException bad(String detail) {
    return Problem.of(ProblemType.BAD_PARAMETER, detail).asException();
  }
}
