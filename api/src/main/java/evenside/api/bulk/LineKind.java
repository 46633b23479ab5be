package evenside.api.bulk;

import evenside.api.access.Caller;
import evenside.api.access.Scope;
import evenside.api.http.Method;
import evenside.readiness.ReadinessService;
import evenside.readiness.recording.IdempotencyKey;
import evenside.readiness.recording.Recorded;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import tools.jackson.databind.JsonNode;

/** What a line can record; each is a route of its own too. */
enum LineKind {
  CASE(Method.PUT, "caseId", "/v1/cases/%s", "/v1/cases/", Scope.RECORDS_WRITE),
  BATTERY(Method.POST, "caseId", "/v1/cases/%s/batteries", "/v1/batteries/", Scope.RECORDS_WRITE),
  SESSION(Method.POST, "caseId", "/v1/cases/%s/sessions", "/v1/sessions/", Scope.RECORDS_WRITE),
  DECISION_REQUEST(
      Method.POST, "caseId", "/v1/cases/%s/decisions", "/v1/decisions/", Scope.RECORDS_WRITE),
  DETERMINATION(
      Method.POST,
      "decisionId",
      "/v1/decisions/%s/determinations",
      "/v1/determinations/",
      Scope.DETERMINATIONS_RECORD);

  private final Method method;
  private final String targetMember;
  private final String path;
  private final String folder;
  private final Scope scope;

  LineKind(Method method, String targetMember, String path, String folder, Scope scope) {
    this.method = method;
    this.targetMember = targetMember;
    this.path = path;
    this.folder = folder;
    this.scope = scope;
  }

  static Optional<LineKind> of(String wireName) {
    return Arrays.stream(values()).filter(kind -> kind.wireName().equals(wireName)).findFirst();
  }

  /** The kind of document, as it is called everywhere. */
  String wireName() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  static String names() {
    return Arrays.stream(values()).map(LineKind::wireName).collect(Collectors.joining(", "));
  }

  Method method() {
    return method;
  }

  /** The member of a line that says on what. */
  String targetMember() {
    return targetMember;
  }

  /** The path of the route of its own. */
  String path(String target) {
    return path.formatted(target);
  }

  /** Where the records are found. */
  String folder() {
    return folder;
  }

  /** What the caller must be allowed. */
  Scope scope() {
    return scope;
  }

  Recorded record(
      ReadinessService service, Caller caller, String target, JsonNode body, IdempotencyKey key) {
    String clinic = caller.clinic().orElseThrow();
    Optional<IdempotencyKey> once = Optional.of(key);
    return switch (this) {
      case CASE -> service.cases().put(clinic, target, body, Optional.empty());
      case BATTERY -> service.batteries().add(clinic, target, body, once);
      case SESSION -> service.sessions().add(clinic, target, body, once);
      case DECISION_REQUEST -> service.decisions().decide(clinic, target, body, once);
      case DETERMINATION ->
          service.determinations().add(clinic, caller.client(), target, body, once);
    };
  }
}
