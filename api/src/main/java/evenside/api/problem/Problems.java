package evenside.api.problem;

import evenside.api.log.LogFields;
import evenside.ledger.LedgerRefusal;
import evenside.readiness.recording.Refused;
import evenside.schemas.NotJson;
import evenside.store.database.StoreException;
import java.util.Locale;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Turns every failure into a problem. The only place that maps failures to statuses. */
public final class Problems {
  /** An unknown path, or an id that cannot be one. */
  public static final Problem NOTHING_HERE =
      Problem.of(ProblemType.NOT_FOUND, "There is nothing at this path.");

  private static final Logger LOG = LoggerFactory.getLogger(Problems.class);
  private static final String RETRY_AFTER_SECONDS = "1";

  private Problems() {}

  /** The problem that {@code failure} is to the client; one nobody foresaw goes to the log. */
  public static Problem of(Throwable failure, String requestId) {
    if (failure instanceof ProblemException expected) {
      return expected.problem();
    }
    if (failure instanceof Refused refused) {
      return of(refused);
    }
    if (failure instanceof NotJson notJson) {
      boolean tooLarge = notJson.code().equals("json.too-large");
      return Problem.notJson(
          tooLarge ? ProblemType.CONTENT_TOO_LARGE : ProblemType.NOT_JSON, notJson);
    }
    if (failure instanceof StoreException store) {
      LOG.atError()
          .addKeyValue(LogFields.REQUEST, requestId)
          .setCause(store)
          .log("a request failed: {}", store.getMessage());
      String why =
          store instanceof LedgerRefusal
              ? "The ledger cannot sign what was asked for now."
              : "The database does not answer.";
      return Problem.of(ProblemType.UNAVAILABLE, why)
          .withHeader("Retry-After", RETRY_AFTER_SECONDS);
    }
    LOG.atError()
        .addKeyValue(LogFields.REQUEST, requestId)
        .setCause(failure)
        .log("a request failed");
    return Problem.of(ProblemType.INTERNAL, "The service failed; its log has this instance.");
  }

  private static Problem of(Refused refused) {
    ProblemType type = type(refused);
    String detail = sentence(refused.detail());
    if (type == ProblemType.PRECONDITION_REQUIRED) {
      detail += " Send the ETag that GET answers, in If-Match.";
    }
    Problem problem = Problem.withFaults(type, detail, refused.faults(), refused.truncated());
    return switch (type) {
      case REQUEST_IN_FLIGHT, UNAVAILABLE -> problem.withHeader("Retry-After", RETRY_AFTER_SECONDS);
      default -> problem;
    };
  }

  private static String sentence(String text) {
    String upper = text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    return upper.endsWith(".") ? upper : upper + ".";
  }

  private static ProblemType type(Refused refused) {
    return switch (refused.refusal()) {
      case INVALID -> ProblemType.INVALID_DOCUMENT;
      case NOT_FOUND -> ProblemType.NOT_FOUND;
      case ERASED -> ProblemType.ERASED;
      case CONFLICT -> ProblemType.CONFLICT;
      case PRECONDITION_REQUIRED -> ProblemType.PRECONDITION_REQUIRED;
      case PRECONDITION_FAILED -> ProblemType.PRECONDITION_FAILED;
      case KEY_REUSED -> ProblemType.IDEMPOTENCY_KEY_REUSED;
      case KEY_IN_FLIGHT -> ProblemType.REQUEST_IN_FLIGHT;
      case UNSUPPORTED_VERSION -> ProblemType.UNSUPPORTED_SCHEMA_VERSION;
      case UNAVAILABLE -> ProblemType.UNAVAILABLE;
    };
  }
}
