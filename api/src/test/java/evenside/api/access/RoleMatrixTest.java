package evenside.api.access;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.LiveService;
import evenside.api.http.Method;
import evenside.api.openapi.Repository;
import evenside.api.problem.ProblemType;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.extension.RegisterExtension;
import tools.jackson.databind.JsonNode;

/**
 * Who may call what: every operation of {@code openapi.yaml} by every scope alone, by nobody, and
 * by a key without any. OWASP API5:2023, function level authorization.
 */
class RoleMatrixTest {
  @RegisterExtension static final LiveService SERVICE = LiveService.guarded();

  private static final Map<Scope, String> KEYS = new EnumMap<>(Scope.class);

  private static final Map<String, String> PLACES =
      Map.ofEntries(
          Map.entry("caseId", "nobody"),
          Map.entry("version", "1.0"),
          Map.entry("kind", "case"),
          Map.entry("code", "no-such-code"),
          Map.entry("id", "no-such-id"),
          Map.entry("slug", "not-found"));

  /** One cell: an operation and the scopes that it names. */
  private record Operation(String id, String method, String path, Set<String> scopes) {}

  @BeforeAll
  static void issueKeys() {
    for (Scope scope : Scope.values()) {
      KEYS.put(scope, SERVICE.key("north", "only-" + scope.wireName(), scope));
    }
  }

  @TestFactory
  Stream<DynamicTest> operation_isOpenToItsScopesAndToNoOther() {
    return operations().stream()
        .map(operation -> DynamicTest.dynamicTest(operation.id(), () -> check(operation)));
  }

  private static void check(Operation operation) {
    boolean open = operation.scopes().isEmpty();
    for (Scope scope : Scope.values()) {
      Response answer = send(operation, KEYS.get(scope));
      String cell = operation.id() + " with " + scope.wireName() + ": " + answer.statusCode();
      if (open || operation.scopes().contains(scope.wireName())) {
        assertThat(answer.statusCode()).as(cell).isNotIn(401, 403);
      } else {
        assertThat(answer.statusCode()).as(cell).isEqualTo(403);
        assertThat(answer.<String>path("type")).isEqualTo(ProblemType.SCOPE_MISSING.uri());
        assertThat(answer.<String>path("detail")).contains(operation.scopes());
        assertThat(answer.header("WWW-Authenticate")).contains("error=\"insufficient_scope\"");
      }
    }
    for (String token : List.of("", "evk_0000000000000000_" + "A".repeat(43))) {
      Response answer = send(operation, token);
      if (open) {
        assertThat(answer.statusCode()).as(operation.id()).isNotIn(401, 403);
      } else {
        assertThat(answer.statusCode()).as(operation.id()).isEqualTo(401);
        assertThat(answer.<String>path("type")).isEqualTo(ProblemType.UNAUTHENTICATED.uri());
        assertThat(answer.header("WWW-Authenticate")).startsWith("Bearer realm=\"evenside\"");
      }
    }
  }

  /** HEAD gives away no more than GET does. */
  @Test
  void head_needsWhatGetNeeds() {
    operations().stream()
        .filter(operation -> operation.method().equals("GET"))
        .map(get -> new Operation(get.id(), "HEAD", get.path(), get.scopes()))
        .forEach(
            head ->
                assertThat(send(head, "").statusCode() == 401)
                    .as(head.path())
                    .isEqualTo(!head.scopes().isEmpty()));
  }

  @Test
  void auditor_recordsNothing() {
    Map<String, Long> before = SERVICE.rows();
    List<String> reached = new ArrayList<>();
    for (Operation operation : operations()) {
      boolean may = operation.scopes().contains(Scope.AUDIT_READ.wireName());
      if (may && !operation.method().equals("GET")) {
        reached.add(operation.id());
        send(operation, KEYS.get(Scope.AUDIT_READ));
      }
    }
    // Both compute and answer; neither records.
    assertThat(reached).containsExactlyInAnyOrder("replay", "whatIf");
    assertThat(SERVICE.rows()).isEqualTo(before);
  }

  /** No method and no path beside those listed is answered. */
  @Test
  void method_notListed_isRefusedWhoeverAsks() {
    String everything = SERVICE.key("north", "everything", Scope.values());
    for (Operation operation : operations()) {
      for (String method : List.of("PATCH", "DELETE", "TRACE")) {
        Operation other = new Operation("-", method, operation.path(), Set.of());
        assertThat(send(other, everything).statusCode()).as(operation.path()).isEqualTo(405);
      }
    }
    Stream.of("/v1", "/admin", "/h2-console", "/v1/keys/x", "/v2/cases/c", "/actuator")
        .map(path -> new Operation("-", "GET", path, Set.of()))
        .forEach(
            path -> assertThat(send(path, everything).statusCode()).as(path.path()).isEqualTo(404));
  }

  private static Response send(Operation operation, String token) {
    RequestSpecification request =
        List.of("POST", "PUT").contains(operation.method())
            ? SERVICE.json("{}").header("Idempotency-Key", UUID.randomUUID().toString())
            : SERVICE.http();
    // As many connections as cells would wait for the room that idle ones leave.
    request.header("Connection", "close");
    if (!token.isEmpty()) {
      request.header("Authorization", "Bearer " + token);
    }
    return request.request(operation.method(), operation.path());
  }

  private static List<Operation> operations() {
    List<Operation> operations = new ArrayList<>();
    for (Map.Entry<String, JsonNode> path : Repository.openApi().path("paths").properties()) {
      for (Map.Entry<String, JsonNode> one : path.getValue().properties()) {
        Set<String> scopes = new TreeSet<>();
        one.getValue()
            .path("security")
            .forEach(s -> scopes.add(s.path("bearer").path(0).asString()));
        operations.add(
            new Operation(
                one.getValue().path("operationId").asString(),
                Method.valueOf(one.getKey().toUpperCase(Locale.ROOT)).name(),
                filled(path.getKey()),
                scopes));
      }
    }
    return operations;
  }

  private static String filled(String template) {
    String path = template;
    for (Map.Entry<String, String> place : PLACES.entrySet()) {
      path = path.replace("{" + place.getKey() + "}", place.getValue());
    }
    return path.replaceAll("\\{[^}]*}", "00000000-0000-7000-8000-000000000000");
  }
}
