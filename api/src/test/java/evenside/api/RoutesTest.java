package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.access.Authentication;
import evenside.api.access.Scope;
import evenside.api.http.Cursors;
import evenside.api.http.Method;
import evenside.api.http.Route;
import evenside.api.openapi.Repository;
import evenside.readiness.ReadinessService;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** The route table and {@code openapi.yaml} say the same. */
class RoutesTest {
  private static final JsonNode OPEN_API = Repository.openApi();

  @TempDir static Path folder;

  @AutoClose private static Store store;
  private static List<Route> routes;

  @BeforeAll
  static void openStore() {
    store = Store.open(StoreSettings.inFolder(folder));
    ReadinessService service =
        ReadinessService.of(LiveService.CONTRACT, store, InstantSource.system());
    routes =
        Api.routes(
            new Api.Dependencies(service, new Cursors(new byte[32]), Authentication.none("local")));
  }

  @Test
  void routes_registered_areThoseDocumented() {
    Set<String> documented = new TreeSet<>();
    OPEN_API
        .path("paths")
        .properties()
        .forEach(
            path ->
                path.getValue()
                    .propertyNames()
                    .forEach(
                        m -> documented.add(m.toUpperCase(Locale.ROOT) + " " + path.getKey())));
    assertThat(routes.stream().map(route -> route.method() + " " + route.path()))
        .containsExactlyInAnyOrderElementsOf(documented);
  }

  @Test
  void queryParameters_taken_areThoseDocumented() {
    for (Route route : routes) {
      Set<String> documented = new TreeSet<>();
      for (JsonNode parameter : operation(route).path("parameters")) {
        JsonNode resolved = resolve(parameter);
        if (resolved.path("in").asString().equals("query")) {
          documented.add(resolved.path("name").asString());
        }
      }
      assertThat(route.query()).as(route.path()).isEqualTo(documented);
    }
  }

  @Test
  void pathParameters_ofTheTemplate_areThoseDocumented() {
    for (Route route : routes) {
      Set<String> documented = new TreeSet<>();
      for (JsonNode parameter : operation(route).path("parameters")) {
        JsonNode resolved = resolve(parameter);
        if (resolved.path("in").asString().equals("path")) {
          documented.add("{" + resolved.path("name").asString() + "}");
        }
      }
      assertThat(route.path().replaceAll("\\{[^}]*}", "").length())
          .as(route.path())
          .isEqualTo(route.path().length() - documented.stream().mapToInt(String::length).sum());
      assertThat(documented).as(route.path()).allMatch(route.path()::contains);
    }
  }

  @Test
  void mediaTypes_produced_areThoseDocumented() {
    for (Route route : routes) {
      JsonNode content = operation(route).path("responses").path("200").path("content");
      if (content.isMissingNode()) {
        content = operation(route).path("responses").path("201").path("content");
      }
      assertThat(route.produces())
          .as(route.path())
          .containsExactlyInAnyOrderElementsOf(content.propertyNames());
    }
  }

  @Test
  void bodies_taken_areThoseDocumented() {
    for (Route route : routes) {
      assertThat(operation(route).has("requestBody"))
          .as(route.path())
          .isEqualTo(route.method() != Method.GET);
    }
  }

  @Test
  void scopes_needed_areThoseDocumented() {
    for (Route route : routes) {
      JsonNode security = operation(route).path("security");
      assertThat(security.isArray()).as(route.path()).isTrue();
      Set<String> documented = new TreeSet<>();
      for (JsonNode requirement : security) {
        // One scope each: any one suffices.
        assertThat(requirement.propertyNames()).as(route.path()).containsExactly("bearer");
        assertThat(requirement.path("bearer").size()).as(route.path()).isEqualTo(1);
        documented.add(requirement.path("bearer").path(0).asString());
      }
      assertThat(route.scopes().stream().map(Scope::wireName))
          .as(route.path())
          .containsExactlyInAnyOrderElementsOf(documented);
      assertThat(route.open()).as(route.path()).isEqualTo(documented.isEmpty());
    }
  }

  @Test
  void scopes_inTheDescriptionOfTheScheme_areAll() {
    String described = OPEN_API.at("/components/securitySchemes/bearer/description").asString();
    assertThat(Scope.values())
        .allSatisfy(scope -> assertThat(described).contains("| `" + scope.wireName() + "` |"));
  }

  @Test
  void unauthorized_isDocumented_whereAScopeIsNeeded() {
    for (Route route : routes) {
      assertThat(operation(route).path("responses").has("401"))
          .as(route.path())
          .isEqualTo(!route.open());
    }
  }

  @Test
  void operationIds_areUnique() {
    assertThat(OPEN_API.path("paths").findValuesAsString("operationId"))
        .doesNotHaveDuplicates()
        .hasSize(routes.size());
  }

  @Test
  void references_allLeadSomewhere() {
    for (JsonNode reference : OPEN_API.findValues("$ref")) {
      assertThat(OPEN_API.at(reference.asString().substring(1)).isMissingNode())
          .as(reference.asString())
          .isFalse();
    }
  }

  private static JsonNode operation(Route route) {
    return OPEN_API
        .path("paths")
        .path(route.path())
        .path(route.method().name().toLowerCase(Locale.ROOT));
  }

  private static JsonNode resolve(JsonNode node) {
    String reference = node.path("$ref").asString("");
    return reference.isEmpty() ? node : OPEN_API.at(reference.substring(1));
  }
}
