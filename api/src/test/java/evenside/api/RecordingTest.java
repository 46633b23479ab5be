package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsInAnyOrder;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.notNullValue;

import io.restassured.response.Response;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;

/** The main job over HTTP: a case, its battery, a decision, and all of it again later. */
class RecordingTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  @Test
  void battery_recorded_comesBackWithItsSymmetryAndDecision() {
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/main-job").then().statusCode(201);
    Response recorded = SERVICE.record(Examples.battery()).post("/v1/cases/main-job/batteries");
    recorded.then().statusCode(201).body("symmetry.measure", hasItem("single-hop-distance"));
    Response decided =
        SERVICE.record(Examples.decisionRequest()).post("/v1/cases/main-job/decisions");
    decided.then().statusCode(201).body("outcome", notNullValue());
    assertThat(fetched(recorded)).isEqualTo(recorded.asByteArray());
    assertThat(fetched(decided)).isEqualTo(decided.asByteArray());
    SERVICE
        .http()
        .get("/v1/cases/main-job/batteries")
        .then()
        .statusCode(200)
        .body("items.batteryId", containsInAnyOrder(recorded.<Object>path("batteryId")));
    SERVICE
        .http()
        .get("/v1/decisions?caseId=main-job&outcome=" + decided.path("outcome"))
        .then()
        .statusCode(200)
        .body("items[0].decisionId", equalTo(decided.path("decisionId")));
  }

  @Test
  void assessment_ofTwoSets_showsThemSideBySideAndStoresNothing() {
    var before = SERVICE.rows();
    SERVICE
        .json(Examples.assessmentRequest())
        .post("/v1/assessments")
        .then()
        .statusCode(200)
        .header("ETag", equalTo(null))
        .body("recorded", equalTo(false))
        .body("decisions.size()", equalTo(2))
        .body("comparison.find { it.bySet.size() > 1 }", notNullValue());
    assertThat(SERVICE.rows()).isEqualTo(before);
  }

  private static byte[] fetched(Response recorded) {
    return SERVICE.http().get(recorded.header("Location")).asByteArray();
  }
}
