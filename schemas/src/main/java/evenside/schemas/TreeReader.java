package evenside.schemas;

import evenside.schemas.NotJson.Reason;
import evenside.schemas.StrictJson.Limits;
import java.math.BigDecimal;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Builds the tree of one text token by token, checking each before anything is made of it. */
final class TreeReader {

  /** Ten to this power, up or down, bounds every number; beyond lie only mistakes and attacks. */
  private static final int MAX_EXPONENT = 20;

  /** What a binary double always carries; more digits are lost by most receivers. */
  private static final int MAX_DIGITS = 17;

  private final JsonParser parser;
  private final Limits limits;
  private final JsonNodeFactory nodes = JsonNodeFactory.instance;
  private int tokens;

  TreeReader(JsonParser parser, Limits limits) {
    this.parser = parser;
    this.limits = limits;
  }

  JsonNode document() {
    return value(next(), 0);
  }

  private JsonNode value(JsonToken token, int depth) {
    return switch (token) {
      case START_OBJECT -> object(deeper(depth));
      case START_ARRAY -> array(deeper(depth));
      case VALUE_STRING -> nodes.stringNode(text());
      case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> number(token);
      case VALUE_TRUE, VALUE_FALSE -> nodes.booleanNode(token == JsonToken.VALUE_TRUE);
      case VALUE_NULL -> nodes.nullNode();
      default -> throw new IllegalStateException("no value starts with " + token);
    };
  }

  private ObjectNode object(int depth) {
    ObjectNode object = nodes.objectNode();
    while (next() != JsonToken.END_OBJECT) {
      String name = name();
      if (object.has(name)) {
        throw refused(Reason.DUPLICATE_NAME, "The name '" + name + "' stands twice in one object.");
      }
      object.set(name, value(next(), depth));
    }
    return object;
  }

  private ArrayNode array(int depth) {
    ArrayNode array = nodes.arrayNode();
    for (JsonToken token = next(); token != JsonToken.END_ARRAY; token = next()) {
      array.add(value(token, depth));
    }
    return array;
  }

  private JsonToken next() {
    JsonToken token = parser.nextToken();
    if (token == null) {
      throw refused(Reason.MALFORMED, "The text ends before the JSON value does.");
    }
    tokens++;
    if (tokens > limits.maxTokens()) {
      throw tooMuch(
          Reason.TOO_MANY_TOKENS,
          "The text has more than %d values, names and brackets.",
          limits.maxTokens());
    }
    return token;
  }

  private int deeper(int depth) {
    if (depth == limits.maxDepth()) {
      throw tooMuch(
          Reason.TOO_DEEP, "Arrays and objects lie more than %d deep.", limits.maxDepth());
    }
    return depth + 1;
  }

  private String name() {
    String name = parser.currentName();
    if (name.length() > limits.maxNameLength()) {
      throw tooMuch(
          Reason.NAME_TOO_LONG,
          "A member name is longer than %d characters.",
          limits.maxNameLength());
    }
    return name; // the parser itself refuses half a surrogate pair in a name
  }

  private String text() {
    if (parser.getStringLength() > limits.maxTextLength()) {
      throw tooMuch(
          Reason.TEXT_TOO_LONG, "A string is longer than %d characters.", limits.maxTextLength());
    }
    return wellFormed(parser.getString());
  }

  private String wellFormed(String text) {
    for (int i = 0; i < text.length(); i++) {
      if (Character.isSurrogate(text.charAt(i))) {
        if (!Character.isSupplementaryCodePoint(text.codePointAt(i))) {
          throw refused(
              Reason.LONE_SURROGATE,
              "A string holds half a surrogate pair, which is no character.");
        }
        i++;
      }
    }
    return text;
  }

  private JsonNode number(JsonToken token) {
    if (parser.getStringLength() > limits.maxNumberLength()) {
      throw tooMuch(
          Reason.NUMBER_TOO_LONG,
          "A number is written with more than %d characters.",
          limits.maxNumberLength());
    }
    BigDecimal value = inRange(parser.getString());
    if (token == JsonToken.VALUE_NUMBER_FLOAT) {
      return nodes.numberNode(value);
    }
    return switch (parser.getNumberType()) {
      case INT -> nodes.numberNode(parser.getIntValue());
      case LONG -> nodes.numberNode(parser.getLongValue());
      default -> nodes.numberNode(value.toBigIntegerExact());
    };
  }

  private BigDecimal inRange(String text) {
    BigDecimal value;
    try {
      value = new BigDecimal(text);
    } catch (NumberFormatException beyondAnyScale) {
      throw outOfRange();
    }
    if (value.signum() == 0) {
      return BigDecimal.ZERO; // whatever exponent it was written with
    }
    long exponent = (long) value.precision() - value.scale() - 1;
    if (Math.abs(exponent) > MAX_EXPONENT) {
      throw outOfRange();
    }
    if (value.stripTrailingZeros().precision() > MAX_DIGITS) {
      throw tooMuch(
          Reason.NUMBER_TOO_PRECISE, "A number has more than %d significant digits.", MAX_DIGITS);
    }
    return value;
  }

  private NotJson outOfRange() {
    return tooMuch(
        Reason.NUMBER_OUT_OF_RANGE,
        "A number lies beyond ten to the power of %d, or that near to zero.",
        MAX_EXPONENT);
  }

  private NotJson tooMuch(Reason reason, String detail, int limit) {
    return refused(reason, detail.formatted(limit));
  }

  private NotJson refused(Reason reason, String detail) {
    return new NotJson(reason, detail, StrictJson.located(parser.currentTokenLocation()));
  }
}
