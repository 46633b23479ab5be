package evenside.schemas;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * The fingerprints of all published files; a published file never changes.
 *
 * <p>One line per file, SHA-256 in hexadecimal, two blanks, the path: {@code sha256sum -c
 * schemas.lock} checks it too.
 *
 * @param sha256ByPath fingerprint of each file
 */
record Lock(SortedMap<String, String> sha256ByPath) {

  static final String FILE = "schemas.lock";

  private static final int HASH_LENGTH = 64;
  private static final String GAP = "  ";

  /** The lock that these files would have. */
  static Lock of(SortedMap<String, byte[]> files) {
    SortedMap<String, String> lines = new TreeMap<>();
    files.forEach((path, bytes) -> lines.put(path, sha256(bytes)));
    return new Lock(lines);
  }

  static Lock parse(byte[] text) {
    SortedMap<String, String> lines = new TreeMap<>();
    for (String line : new String(text, StandardCharsets.UTF_8).lines().toList()) {
      if (!line.matches("[0-9a-f]{" + HASH_LENGTH + "}" + GAP + "\\S+")) {
        throw new IllegalStateException("not a line of " + FILE + ": " + line);
      }
      lines.put(line.substring(HASH_LENGTH + GAP.length()), line.substring(0, HASH_LENGTH));
    }
    return new Lock(lines);
  }

  byte[] text() {
    StringBuilder text = new StringBuilder();
    sha256ByPath.forEach((path, hash) -> text.append(hash).append(GAP).append(path).append('\n'));
    return text.toString().getBytes(StandardCharsets.UTF_8);
  }

  /** Throws {@link IllegalStateException} naming the first file that is not as it was published. */
  void check(String path, byte[] bytes) {
    String published = sha256ByPath.get(path);
    if (!sha256(bytes).equals(published)) {
      throw new IllegalStateException(
          path
              + " is not as published: its SHA-256 is "
              + sha256(bytes)
              + ", "
              + FILE
              + " says "
              + published);
    }
  }

  private static String sha256(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException("every Java platform has SHA-256", impossible);
    }
  }
}
