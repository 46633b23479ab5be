package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.api.access.Authentication;
import evenside.api.http.Cursors;
import evenside.api.http.Reply;
import evenside.api.http.Route;
import evenside.api.openapi.Repository;
import evenside.api.server.Front;
import evenside.readiness.ReadinessService;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import io.javalin.Javalin;
import io.restassured.RestAssured;
import io.restassured.response.Response;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.node.JsonNodeFactory;

/** A route that goes says so. Expected headers: the examples of RFC 9745 and RFC 8594. */
class DeprecationTest {
  /** RFC 9745, section 2.1: {@code Deprecation: @1688169599} is Friday, June 30, 2023 23:59:59. */
  private static final Instant SINCE = Instant.parse("2023-06-30T23:59:59Z");

  /** RFC 8594, section 3: {@code Sunset: Sat, 31 Dec 2018 23:59:59 GMT}, whose day is a Monday. */
  private static final Instant SUNSET = Instant.parse("2028-12-31T23:59:59Z");

  private static final String NOTICE = "https://evenside.example/notices/old";

  @TempDir Path folder;

  @Test
  void route_deprecated_saysSinceWhenAndUntilWhen() {
    Route route =
        Route.get(
                "/v1/old",
                call ->
                    Reply.of(JsonNodeFactory.instance.objectNode()).describedBy("1.0.0", "case"))
            .openToAnyone()
            .deprecated(SINCE, SUNSET, NOTICE)
            .producing("application/json");
    Javalin app =
        Api.create(
                Authentication.none("local"),
                Operations.with(List.of()),
                List.of(route),
                Front.LOOPBACK)
            .start("127.0.0.1", 0);
    try {
      for (String query : List.of("", "?nope=1")) {
        Response answer = RestAssured.get("http://127.0.0.1:" + app.port() + "/v1/old" + query);
        assertThat(answer.header("Deprecation")).isEqualTo("@1688169599");
        assertThat(answer.header("Sunset")).isEqualTo("Sun, 31 Dec 2028 23:59:59 GMT");
        assertThat(
                ZonedDateTime.parse(answer.header("Sunset"), DateTimeFormatter.RFC_1123_DATE_TIME)
                    .toInstant())
            .isEqualTo(SUNSET);
        assertThat(answer.headers().getValues("Link"))
            .contains("<" + NOTICE + ">; rel=\"deprecation\"; type=\"text/html\"");
      }
      Response fine = RestAssured.get("http://127.0.0.1:" + app.port() + "/v1/old");
      assertThat(fine.headers().getValues("Link"))
          .hasSize(2)
          .anyMatch(l -> l.contains("describedby"));
    } finally {
      QuickStop.of(app);
    }
  }

  /** RFC 9745, section 4: the sunset must not be earlier than the deprecation. */
  @Test
  void sunset_beforeDeprecation_isRefused() {
    Route route = Route.get("/v1/old", call -> Reply.of(JsonNodeFactory.instance.objectNode()));
    assertThatThrownBy(() -> route.deprecated(SUNSET, SINCE, NOTICE))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("before it is deprecated");
    assertThat(route.deprecated(SINCE, SINCE, NOTICE).deprecation()).isPresent();
  }

  @Test
  void routes_deprecated_areThoseDocumentedAsDeprecated() {
    try (Store store = Store.open(StoreSettings.inFolder(folder))) {
      ReadinessService service =
          ReadinessService.of(LiveService.CONTRACT, store, InstantSource.system());
      for (Route route :
          Api.routes(
              new Api.Dependencies(
                  service, new Cursors(new byte[32]), Authentication.none("local")))) {
        boolean documented =
            Repository.openApi()
                .path("paths")
                .path(route.path())
                .path(route.method().name().toLowerCase(Locale.ROOT))
                .path("deprecated")
                .asBoolean(false);
        assertThat(route.deprecation().isPresent()).as(route.path()).isEqualTo(documented);
      }
    }
  }
}
