package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.notNullValue;

import io.restassured.response.Response;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;

/** A clinic's own criteria set and the other symmetry indices, over HTTP. */
class OwnCriteriaSetTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  private static String battery = "";

  @BeforeAll
  static void record() {
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/own").then().statusCode(201);
    battery =
        SERVICE
            .record(Examples.battery())
            .post("/v1/cases/own/batteries")
            .then()
            .statusCode(201)
            .extract()
            .path("batteryId");
  }

  @Test
  void ownSet_isPublishedServedListedAndDecidedBy() {
    Response made = SERVICE.json(Examples.ownCriteriaSet("3")).post("/v1/criteria-sets");
    made.then().statusCode(201).header("Location", "/v1/criteria-sets/house-checkpoint/3");
    Response got = SERVICE.http().get(made.header("Location"));
    assertThat(got.asByteArray()).isEqualTo(made.asByteArray());
    assertThat(got.header("Cache-Control")).isEqualTo("private, no-cache");
    SERVICE
        .http()
        .get("/v1/criteria-sets")
        .then()
        .statusCode(200)
        .body("criteriaSets.findAll { it.own }.id", hasItem("house-checkpoint"))
        .body("criteriaSets.findAll { !it.own }.id", hasItem("delaware-oslo"));
    String request =
        """
        {"schemaVersion": "1.0", "criteriaSet": {"id": "house-checkpoint", "version": "3"}}
        """;
    SERVICE
        .record(request)
        .post("/v1/cases/own/decisions")
        .then()
        .statusCode(201)
        .body("criteriaSet.id", equalTo("house-checkpoint"))
        .body("outcome", notNullValue());
  }

  @Test
  void faultySet_isRefusedWithPointers() {
    String faulty =
        Examples.ownCriteriaSet("4").replace("\"single-hop-distance\"", "\"long-jump\"");
    SERVICE
        .json(faulty)
        .post("/v1/criteria-sets")
        .then()
        .statusCode(422)
        .body("faults.pointer", hasItem("#/criteria/of/0/measure"))
        .body("faults.code", hasItem("measure.unknown"));
  }

  @Test
  void indices_standBesideTheSymmetryWhenAskedFor() {
    String path = "symmetry.find { it.measure == 'single-hop-distance' }";
    double symmetry =
        SERVICE
            .http()
            .get("/v1/batteries/" + battery)
            .<Number>path(path + ".symmetry.value")
            .doubleValue();
    // Robinson's index from the limb symmetry index, by its closed form.
    double robinson = 200 * (100 - symmetry) / (100 + symmetry);
    Number seen =
        SERVICE
            .http()
            .get("/v1/batteries/" + battery + "?indices=robinson-symmetry-index,deficit")
            .path(path + ".indices[0].value.value");
    assertThat(seen.doubleValue()).isCloseTo(robinson, org.assertj.core.data.Offset.offset(1e-4));
    SERVICE.http().get("/v1/batteries/" + battery + "?indices=lsi").then().statusCode(400);
  }
}
