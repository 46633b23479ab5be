package evenside.api.http;

import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;

/** What a request sends and what it accepts (RFC 9110, sections 8.3 and 12.5.1). */
final class MediaTypes {
  private static final Pattern UTF8 =
      Pattern.compile("([ \\t]*;[ \\t]*charset=\"?utf-8\"?)?", Pattern.CASE_INSENSITIVE);
  private static final Pattern QUALITY = Pattern.compile("[01](\\.[0-9]{0,3})?");

  private MediaTypes() {}

  /**
   * Refuses a body that is not plain, or not of this media type. A transfer coding beside chunked
   * would be taken off by nobody.
   */
  static void require(
      String accepted,
      List<String> contentType,
      List<String> contentEncoding,
      List<String> transferEncoding) {
    boolean plain =
        (contentEncoding.isEmpty() || contentEncoding.equals(List.of("identity")))
            && transferEncoding.stream().allMatch(coding -> coding.equalsIgnoreCase("chunked"));
    boolean json = contentType.size() == 1 && is(accepted, contentType.get(0).strip());
    if (!json || !plain) {
      throw Problem.of(
              ProblemType.UNSUPPORTED_MEDIA_TYPE,
              plain
                  ? "Send the body as Content-Type: " + accepted + ", in UTF-8."
                  : "Compressed bodies are not taken; send the body itself, without Content-Encoding"
                      + " and with no Transfer-Encoding but chunked.")
          .withHeader("Accept", accepted)
          .withHeader("Accept-Encoding", "identity")
          .asException();
    }
  }

  private static boolean is(String accepted, String sent) {
    int length = accepted.length();
    return sent.regionMatches(true, 0, accepted, 0, length)
        && UTF8.matcher(sent.substring(length)).matches();
  }

  /** The one of {@code offered} that {@code accept} likes best; the earlier of equals. */
  static String negotiate(List<String> accept, List<String> offered) {
    String wanted = String.join(",", accept);
    if (wanted.isBlank()) {
      return offered.get(0);
    }
    String best = "";
    double bestQuality = 0;
    for (String mediaType : offered) {
      double quality = quality(mediaType, wanted);
      if (quality > bestQuality) {
        best = mediaType;
        bestQuality = quality;
      }
    }
    if (best.isEmpty()) {
      throw Problem.of(
              ProblemType.NOT_ACCEPTABLE,
              "The answer comes as " + String.join(" or ", offered) + ".")
          .asException();
    }
    return best;
  }

  /**
   * The quality that the most specific range covering {@code mediaType} gives it; 0 if none does.
   */
  private static double quality(String mediaType, String wanted) {
    int specific = 0;
    double quality = 0;
    for (String range : wanted.split(",", -1)) {
      String[] parts = range.strip().split(";", -1);
      int fit = fit(mediaType, parts[0].strip().toLowerCase(Locale.ROOT));
      if (fit > specific) {
        specific = fit;
        quality = qualityOf(parts);
      }
    }
    return quality;
  }

  private static int fit(String mediaType, String range) {
    if (range.equals(mediaType)) {
      return 3;
    }
    String group = mediaType.substring(0, mediaType.indexOf('/') + 1);
    if (range.equals(group + "*")) {
      return 2;
    }
    return range.equals("*/*") ? 1 : 0;
  }

  static double qualityOf(String[] parts) {
    for (int i = 1; i < parts.length; i++) {
      String parameter = parts[i].strip().toLowerCase(Locale.ROOT);
      if (parameter.startsWith("q=")) {
        String value = parameter.substring(2);
        return QUALITY.matcher(value).matches() ? Double.parseDouble(value) : 0;
      }
    }
    return 1;
  }
}
