package evenside.api.access;

import evenside.schemas.NotJson;
import evenside.schemas.StrictJson;
import evenside.schemas.StrictJson.Limits;
import tools.jackson.databind.JsonNode;

/** Reads what an operator or an authorization server wrote, within limits. */
final class OperatorJson {
  private static final Limits LIMITS = Limits.REQUEST.withMaxBytes(Source.MOST_BYTES);

  private OperatorJson() {}

  static JsonNode read(byte[] bytes) {
    try {
      return StrictJson.read(bytes, LIMITS);
    } catch (NotJson e) {
      String place =
          e.location()
              .map(at -> " (line " + at.line() + ", column " + at.column() + ")")
              .orElse("");
      throw new IllegalArgumentException("it is not JSON: " + e.detail() + place, e);
    }
  }
}
