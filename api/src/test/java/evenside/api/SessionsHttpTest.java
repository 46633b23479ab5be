package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.contains;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.notNullValue;
import static org.hamcrest.Matchers.nullValue;

import io.restassured.response.Response;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;

/** Training over HTTP: a session, its next morning, a stop, and the advice after each. */
class SessionsHttpTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  @BeforeAll
  static void cases() {
    // The published sessions are of a left knee.
    String left = Examples.changed("valid/case/minimal", json -> json.put("operatedSide", "left"));
    for (String id : new String[] {"course", "stop", "faults"}) {
      SERVICE.json(left).put("/v1/cases/" + id).then().statusCode(201);
    }
  }

  private static String session(String name, String suffix) {
    return Examples.changed(
        "valid/session/" + name,
        json -> {
          json.put("recordId", json.path("recordId").asString() + suffix);
          if (json.at("/entry/kneeCheck").has("completes")) {
            json.withObject("/entry/kneeCheck").put("completes", "run-0310" + suffix);
          }
          if (json.at("/entry/clearance").has("clears")) {
            json.withArray("/entry/clearance/clears").removeAll().add("evening-0320" + suffix);
          }
        });
  }

  @Test
  void session_posted_isAnsweredWithAdvice_andCompletedByTheNextMorning() {
    Response first = SERVICE.record(session("first-run", "")).post("/v1/cases/course/sessions");
    first
        .then()
        .statusCode(201)
        .body("advice.outcome", equalTo("insufficient-data"))
        .body("advice.work[0].next.level", equalTo(1))
        .body("advice.unanswered.input", hasItem("knee-sore-next-day"));
    SERVICE
        .record(session("next-morning", ""))
        .post("/v1/cases/course/sessions")
        .then()
        .statusCode(201)
        .body("advice.unanswered", hasSize(0))
        .body("advice.outcome", equalTo("advance"))
        .body("advice.work[0].next.level", equalTo(2))
        .body("advice.work[0].reasons.progression", hasItems("acl-progression", "soreness-rules"))
        .body("advice.work[0].reasons[0].source", notNullValue());
    assertThat(SERVICE.http().get(first.header("Location")).asByteArray())
        .isEqualTo(first.asByteArray());
    SERVICE
        .http()
        .get("/v1/cases/course/sessions?limit=1")
        .then()
        .statusCode(200)
        .body("items.session.recordId", contains("morning-0313"))
        .body("next", notNullValue());
    SERVICE
        .http()
        .get("/v1/cases/course/advice?asOf=2026-03-10")
        .then()
        .statusCode(200)
        .body("asOf", equalTo("2026-03-10"))
        .body("outcome", equalTo("insufficient-data"))
        .body("load.acuteChronic", nullValue());
    SERVICE
        .http()
        .get(
            "/v1/cases/course/advice?plannedOn=2026-03-11&acuteChronic=true&sdMethod=population"
                + "&counting=soreness-rules-sheet/1,soreness-rules/2012")
        .then()
        .statusCode(200)
        .body("outcome", equalTo("hold"))
        .body("load.acuteChronic", hasSize(3))
        .body("load.sdMethod", equalTo("population"));
  }

  @Test
  void redFlag_posted_stopsUntilItIsCleared() {
    SERVICE.record(session("first-run", "-s")).post("/v1/cases/stop/sessions");
    SERVICE
        .record(session("calf-pain-on-a-day-of-rest", "-s"))
        .post("/v1/cases/stop/sessions")
        .then()
        .statusCode(201)
        .body("advice.outcome", equalTo("stop-and-refer"))
        .body("advice.urgency", equalTo("same-day"))
        .body("advice.message", containsString("contact the clinic today"));
    SERVICE
        .record(session("clearance", "-s"))
        .post("/v1/cases/stop/sessions")
        .then()
        .statusCode(201)
        .body("advice.standing", hasSize(0));
  }

  @Test
  void faults_ofASession_areToldAtOnce() {
    String faulty =
        Examples.changed(
            "valid/session/first-run",
            json -> {
              json.withObject("/entry/training").put("effort", 11);
              json.withObject("/entry/training/response/effusion").put("after", "4+");
              json.withObject("/entry/training/work/running/0/progression")
                  .put("level", 4)
                  .put("levelBefore", 1);
            });
    SERVICE
        .record(faulty)
        .post("/v1/cases/faults/sessions")
        .then()
        .statusCode(422)
        .body(
            "faults.code", contains("number.above-maximum", "value.not-allowed", "level.skipped"));
  }

  @Test
  void parameter_malformed_isNamed() {
    for (String query :
        new String[] {
          "asOf=2026-02-30", "plannedOn=tomorrow", "counting=x", "sdMethod=both", "acuteChronic=yes"
        }) {
      SERVICE.http().get("/v1/cases/course/advice?" + query).then().statusCode(400);
    }
    SERVICE.http().get("/v1/cases/course/advice?counting=nope/1").then().statusCode(404);
  }

  @Test
  void progressions_andExercises_areServedAsPublished() {
    SERVICE
        .http()
        .get("/v1/progressions")
        .then()
        .statusCode(200)
        .body("progressions.id", hasItems("running-eight-levels", "acl-progression"));
    SERVICE
        .http()
        .get("/v1/progressions/running-eight-levels/2018")
        .then()
        .statusCode(200)
        .body("levels", hasSize(8));
    SERVICE
        .http()
        .get("/v1/exercises")
        .then()
        .statusCode(200)
        .body("exercises.code", hasItems("nordic-hamstring-lower", "crossover-hop"));
  }
}
