package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.notNullValue;

import io.restassured.response.Response;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Progress, plan, milestones and cohort over HTTP. */
class RecoveryRoutesTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  @BeforeAll
  static void record() {
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/c").then().statusCode(201);
    SERVICE.record(Examples.battery()).post("/v1/cases/c/batteries").then().statusCode(201);
  }

  @Test
  void progress_showsSeriesAndRefusesADateFromOneTest() {
    SERVICE
        .http()
        .get("/v1/cases/c/progress?milestone=return-to-competition")
        .then()
        .statusCode(200)
        .header("Cache-Control", equalTo("no-store"))
        .header("Link", containsString("/v1/schemas/1.0/progress"))
        .body("series.measure", hasItem("single-hop-distance"))
        .body("outlooks", hasSize(1))
        .body("outlooks[0].criteria.refused.code", hasItem("too-few-readings"));
  }

  @Test
  void plan_isProposedBySoftware_andAdoptedByAClinician() {
    Response plan = SERVICE.http().get("/v1/cases/c/plan?criteriaSet=delaware-oslo/2020.1");
    plan.then()
        .statusCode(200)
        .body("proposedBy", equalTo("software"))
        .body("items.kind", hasItem("test"))
        .body("cautions.code", hasItem("clinician-decides"));

    Response adopted = SERVICE.record(Examples.adoptedPlan()).post("/v1/cases/c/plans");
    adopted.then().statusCode(201).body("plan.adoptedBy", equalTo("pt.14"));
    Response served = SERVICE.http().get(adopted.header("Location"));
    assertThat(served.asByteArray()).isEqualTo(adopted.asByteArray());
    SERVICE
        .http()
        .get("/v1/cases/c/plans")
        .then()
        .statusCode(200)
        .body("items.planId", hasItem(adopted.<Object>path("planId")));
  }

  @Test
  void plan_withoutAGoal_asksForOne() {
    SERVICE
        .http()
        .get("/v1/cases/c/plan")
        .then()
        .statusCode(422)
        .body("faults[0].code", equalTo("milestone.no-usual-set"));
  }

  @Test
  void milestones_areAllThere() {
    SERVICE
        .http()
        .get("/v1/cases/c/milestones")
        .then()
        .statusCode(200)
        .body("milestones", hasSize(7))
        .body("milestones.outcome", hasItems("no-usual-set"));
  }

  @Test
  void cohort_ofOnePerson_tellsNothingAboutThem() {
    SERVICE.record(Examples.decisionRequest()).post("/v1/cases/c/decisions").then().statusCode(201);
    SERVICE
        .http()
        .get("/v1/cohort?milestone=start-running")
        .then()
        .statusCode(200)
        .body("smallestCell", equalTo(5))
        .body("enrolled", equalTo(null))
        .body("overall.suppressed", equalTo(true))
        .body("definitions", notNullValue());
  }

  @ParameterizedTest
  @CsvSource({
    "/v1/cohort?milestone=start-running&from=2026-02-30, from",
    "/v1/cohort?milestone=start-running&from=2026-03-02&to=2026-03-01, to",
    "/v1/cohort?milestone=start-running&sex=unknown, sex",
    "/v1/cohort?milestone=start-running&ageFrom=-1, ageFrom",
    "/v1/cohort?milestone=start-running&surgeryFrom=2026-03-02&surgeryTo=2026-03-01, surgeryTo",
    "/v1/cases/c/plan?criteriaSet=delaware-oslo, criteriaSet",
    "/v1/cases/c/progress?asOf=yesterday, asOf"
  })
  void malformedParameter_isNamed(String path, String name) {
    SERVICE
        .http()
        .get(path)
        .then()
        .statusCode(400)
        .body("detail", containsString("The query parameter " + name + " takes"));
  }

  @Test
  @SuppressWarnings("try") // The lock is held by being open.
  void planOfAKeyStillInFlight_isAConflict() throws Exception {
    try (AutoCloseable lock = SERVICE.holdKey("held-plan")) {
      SERVICE
          .json(Examples.adoptedPlan())
          .header("Idempotency-Key", "held-plan")
          .post("/v1/cases/c/plans")
          .then()
          .statusCode(409);
    }
  }
}
