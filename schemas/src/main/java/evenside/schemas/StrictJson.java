package evenside.schemas;

import evenside.schemas.NotJson.Location;
import evenside.schemas.NotJson.Reason;
import java.util.Optional;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.StreamReadConstraints;
import tools.jackson.core.TokenStreamFactory;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.databind.JsonNode;

/**
 * Reads a JSON text, and refuses whatever two readers could understand in two ways.
 *
 * <p>Beyond RFC 8259: strict UTF-8 without byte order mark, no lone surrogate (escaped or not), no
 * name twice in one object, nothing after the value, and {@linkplain Limits limits} on everything a
 * sender can blow up. Numbers keep their decimal value exactly.
 */
public final class StrictJson {

  /**
   * Jackson's own ceilings lie beyond ours, so that the refusal is always ours and carries its
   * code.
   */
  private static final int NEVER_REACHED = Integer.MAX_VALUE;

  private static final JsonFactory FACTORY =
      JsonFactory.builder()
          // No table of names shared between documents: one sender's names cannot slow down
          // another.
          .disable(TokenStreamFactory.Feature.CANONICALIZE_PROPERTY_NAMES)
          .streamReadConstraints(
              StreamReadConstraints.builder()
                  .maxNestingDepth(NEVER_REACHED)
                  .maxStringLength(NEVER_REACHED)
                  .maxNameLength(NEVER_REACHED)
                  .maxNumberLength(NEVER_REACHED)
                  .build())
          .build();

  private StrictJson() {}

  /**
   * What a text may hold at most.
   *
   * @param maxBytes size of the text in bytes
   * @param maxDepth arrays and objects inside each other; 1 is a single array or object
   * @param maxTextLength length of a string, in UTF-16 units
   * @param maxNameLength length of a member name, in UTF-16 units
   * @param maxNumberLength characters of a number as written
   * @param maxTokens brackets, names and values, all counted
   */
  public record Limits(
      int maxBytes,
      int maxDepth,
      int maxTextLength,
      int maxNameLength,
      int maxNumberLength,
      int maxTokens) {

    /** For a request body: 1 MiB, 32 levels, 50 000 tokens. */
    public static final Limits REQUEST = new Limits(1 << 20, 32, 8_192, 128, 100, 50_000);

    /** For what this software wrote or published itself: 16 MiB, 64 levels, 1 000 000 tokens. */
    public static final Limits OWN = new Limits(16 << 20, 64, 65_536, 256, 100, 1_000_000);

    /** All limits must be positive. */
    public Limits {
      if (Math.min(maxBytes, maxDepth) < 1
          || Math.min(maxTextLength, maxNameLength) < 1
          || Math.min(maxNumberLength, maxTokens) < 1) {
        throw new IllegalArgumentException("every limit must be at least 1");
      }
    }

    /** The same limits with another size in bytes. */
    public Limits withMaxBytes(int bytes) {
      return new Limits(bytes, maxDepth, maxTextLength, maxNameLength, maxNumberLength, maxTokens);
    }
  }

  /**
   * Reads one JSON value.
   *
   * @param utf8 the whole text
   * @throws NotJson if it is anything but one well-formed value within the limits; no other
   *     exception is thrown whatever the bytes
   */
  public static JsonNode read(byte[] utf8, Limits limits) {
    String text = StrictUtf8.decode(utf8, limits.maxBytes());
    if (text.isBlank()) {
      throw new NotJson(
          Reason.EMPTY, "The body is empty; a JSON text is needed.", Optional.empty());
    }
    try (JsonParser parser = FACTORY.createParser(ObjectReadContext.empty(), text)) {
      TreeReader reader = new TreeReader(parser, limits);
      JsonNode document = reader.document();
      refuseMore(parser);
      return document;
    } catch (JacksonException malformed) {
      throw new NotJson(
          Reason.MALFORMED,
          "The text is not well-formed JSON here: " + plain(malformed.getOriginalMessage()) + ".",
          located(malformed.getLocation()));
    }
  }

  private static void refuseMore(JsonParser parser) {
    boolean more;
    try {
      more = parser.nextToken() != null;
    } catch (JacksonException alsoMore) {
      more = true;
    }
    if (more) {
      throw new NotJson(
          Reason.TRAILING_TEXT,
          "There is more text after the end of the JSON value.",
          located(parser.currentTokenLocation()));
    }
  }

  /** The parser's sentence without its settings, its own source, and what was sent. */
  private static String plain(String message) {
    String sentence = message.lines().findFirst().orElse("");
    if (sentence.startsWith("Unexpected end-of-input")) {
      return "it ends before the value does, as if cut off on the way";
    }
    return sentence
        .replaceFirst(": enable .*", "")
        .replaceFirst(" \\((not recognized|for \\w+ starting at) .*", "")
        .replaceFirst("^(Unrecognized token) '.*?'(?=:|$)", "$1");
  }

  static Optional<Location> located(TokenStreamLocation place) {
    return place.getLineNr() < 1
        ? Optional.empty()
        : Optional.of(new Location(place.getLineNr(), place.getColumnNr()));
  }
}
