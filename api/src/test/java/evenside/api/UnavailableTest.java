package evenside.api;

import static org.hamcrest.Matchers.equalTo;

import evenside.api.problem.ProblemType;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The store is gone while the service runs. */
class UnavailableTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  @BeforeAll
  static void loseTheStore() {
    SERVICE.http().get("/readyz").then().statusCode(200).body("status", equalTo("ready"));
    SERVICE.closeStore();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/readyz",
        "/v1/cases/c",
        "/v1/cases/c/batteries",
        "/v1/cases/c/decisions",
        "/v1/decisions",
        "/v1/decisions/00000000-0000-7000-8000-000000000000",
        "/v1/batteries/00000000-0000-7000-8000-000000000000"
      })
  void reading_isUnavailable(String path) {
    SERVICE
        .http()
        .get(path)
        .then()
        .statusCode(503)
        .header("Retry-After", "1")
        .body("type", equalTo(ProblemType.UNAVAILABLE.uri()));
  }

  @Test
  void recording_isUnavailable() {
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/c").then().statusCode(503);
    SERVICE.record(Examples.battery()).post("/v1/cases/c/batteries").then().statusCode(503);
    SERVICE.record(Examples.decisionRequest()).post("/v1/cases/c/decisions").then().statusCode(503);
  }

  @ParameterizedTest
  @ValueSource(strings = {"/livez", "/v1/schemas", "/v1/measures", "/openapi.yaml"})
  void whatNeedsNoStore_isAnswered(String path) {
    SERVICE.http().get(path).then().statusCode(200);
  }

  @Test
  void assessment_needsNoStore() {
    SERVICE.json(Examples.assessmentRequest()).post("/v1/assessments").then().statusCode(200);
  }
}
