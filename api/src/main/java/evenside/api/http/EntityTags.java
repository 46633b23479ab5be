package evenside.api.http;

import java.util.ArrayList;
import java.util.Base64;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Strong entity tags made of the body's SHA-256, and the conditions that name them (RFC 9110). */
public final class EntityTags {
  private static final Pattern TAG = Pattern.compile("\\G[ \\t]*(W/)?(\"[!#-~]*\")[ \\t]*(?:,|$)");

  /** Ends the tag of a gzip form. Makes it longer, so that no tag without it looks the same. */
  private static final String CODED = "-gzip";

  private static final Pattern HASH = Pattern.compile("\"([A-Za-z0-9_-]{43})(?:" + CODED + ")?\"");

  private EntityTags() {}

  /** The tag of a body with this SHA-256. */
  static String of(byte[] sha256) {
    return '"' + Base64.getUrlEncoder().withoutPadding().encodeToString(sha256) + '"';
  }

  /** The tag of the gzip form of what has the tag {@code plain}. */
  static String coded(String plain) {
    return plain.substring(0, plain.length() - 1) + CODED + '"';
  }

  /** Whether {@code If-None-Match} lets the receiver keep what has the tag {@code current}. */
  static boolean noneMatchFails(List<String> condition, String current) {
    String value = String.join(",", condition).strip();
    return value.equals("*") || opaque(value, true).contains(current);
  }

  /** Whether {@code If-Match} says that anything will do. */
  public static boolean isAny(List<String> condition) {
    return String.join(",", condition).strip().equals("*");
  }

  /**
   * The strong tags of {@code If-Match} that this service can have given out, as hexadecimal
   * SHA-256 of the document. A weak tag never matches. The tag of the gzip form stands for the same
   * document.
   */
  public static List<String> hashes(List<String> condition) {
    List<String> hashes = new ArrayList<>();
    for (String tag : opaque(String.join(",", condition), false)) {
      hash(tag).ifPresent(hashes::add);
    }
    return hashes;
  }

  private static List<String> opaque(String value, boolean alsoWeak) {
    List<String> tags = new ArrayList<>();
    Matcher tag = TAG.matcher(value);
    while (tag.find()) {
      if (alsoWeak || tag.group(1) == null) {
        tags.add(tag.group(2));
      }
    }
    return tags;
  }

  private static Optional<String> hash(String tag) {
    Matcher hash = HASH.matcher(tag);
    return hash.matches()
        ? Optional.of(HexFormat.of().formatHex(Base64.getUrlDecoder().decode(hash.group(1))))
        : Optional.empty();
  }
}
