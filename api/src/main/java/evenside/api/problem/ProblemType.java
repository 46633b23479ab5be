package evenside.api.problem;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Locale;
import java.util.Optional;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** The kinds of problem. Their texts and statuses are in {@code problems.json}, by slug. */
public enum ProblemType {
  BAD_CURSOR,
  BAD_IDEMPOTENCY_KEY,
  BAD_PARAMETER,
  BAD_REQUEST,
  CONFLICT,
  CONTENT_TOO_LARGE,
  DIGEST_MISMATCH,
  ERASED,
  FOREIGN_HOST,
  FOREIGN_ORIGIN,
  HEADERS_TOO_LARGE,
  IDEMPOTENCY_KEY_MISSING,
  IDEMPOTENCY_KEY_REUSED,
  INTERNAL,
  INVALID_DOCUMENT,
  METHOD_NOT_ALLOWED,
  NOT_ACCEPTABLE,
  NOT_FOUND,
  NOT_JSON,
  NOTHING_TO_ANSWER_FROM,
  PRECONDITION_FAILED,
  PRECONDITION_REQUIRED,
  REQUEST_IN_FLIGHT,
  SCOPE_MISSING,
  UNAUTHENTICATED,
  TOO_MANY_REQUESTS,
  UNAVAILABLE,
  UNKNOWN_PARAMETER,
  UNSUPPORTED_MEDIA_TYPE,
  UNSUPPORTED_SCHEMA_VERSION,
  URI_TOO_LONG;

  private static final String BASE = "https://evenside.example/problems/";

  /** The kind with this slug. */
  public static Optional<ProblemType> of(String slug) {
    for (ProblemType type : values()) {
      if (type.slug().equals(slug)) {
        return Optional.of(type);
      }
    }
    return Optional.empty();
  }

  /** The last part of its URI, for example {@code not-found}. */
  public String slug() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The URI that problems of this kind carry; the service serves a page under the same slug. */
  public String uri() {
    return BASE + slug();
  }

  /** The HTTP status. */
  public int status() {
    return texts().path("status").asInt();
  }

  /** The kind in words. */
  public String title() {
    return texts().path("title").asString();
  }

  /** What happened. */
  public String meaning() {
    return texts().path("meaning").asString();
  }

  /** What to do. */
  public String remedy() {
    return texts().path("remedy").asString();
  }

  /** The form on the wire. */
  public ObjectNode toJson() {
    return JsonNodeFactory.instance
        .objectNode()
        .put("type", uri())
        .put("title", title())
        .put("status", status())
        .put("meaning", meaning())
        .put("remedy", remedy());
  }

  private JsonNode texts() {
    return Texts.ALL.path(slug());
  }

  /** Loaded when first asked for. */
  static final class Texts {
    static final JsonNode ALL = load();

    private Texts() {}

    private static JsonNode load() {
      try (InputStream file =
          ProblemType.class.getResourceAsStream("/evenside/api/problems.json")) {
        if (file == null) {
          throw new IllegalStateException("problems.json is not in the jar");
        }
        return JsonMapper.shared().readTree(file);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }
}
