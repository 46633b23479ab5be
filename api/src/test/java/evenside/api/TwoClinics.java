package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.access.Scope;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.util.LinkedHashMap;
import java.util.Map;

/** Two clinics of one service: north with one of everything, south with little. */
final class TwoClinics {
  static final String CASE = "knee-of-north";

  /** What an operation is sent. */
  static final Map<String, String> BODIES =
      Map.of(
          "addBattery",
          Examples.battery(),
          "addSession",
          Examples.session(),
          "decide",
          Examples.decisionRequest(),
          "adoptPlan",
          Examples.adoptedPlan(),
          "determine",
          Examples.text("valid/determination/deferred"),
          "replay",
          "{\"schemaVersion\":\"1.0\"}",
          "addFhirObservations",
          Examples.fhirObservations("hop-1", 126),
          "whatIf",
          "{\"schemaVersion\":\"1.0\",\"asOf\":\"2026-10-01\"}");

  /** What belongs to the clinic north, by the name of its path parameter. */
  final Map<String, String> northern = new LinkedHashMap<>();

  /** Bearer token of the one. */
  final String north;

  /** Bearer token of the other. */
  final String south;

  /** Decision of north that is no more. */
  final String erasedDecision;

  final String southernDecision;

  private final LiveService service;

  TwoClinics(LiveService service) {
    this.service = service;
    north = service.key("north", "gym", Scope.values());
    south = service.key("south", "gym", Scope.values());
    recordCase(north, CASE);
    northern.put("caseId", CASE);
    northern.put("batteryId", add(north, "/v1/cases/" + CASE + "/batteries", "addBattery"));
    northern.put("sessionId", add(north, "/v1/cases/" + CASE + "/sessions", "addSession"));
    northern.put("decisionId", add(north, "/v1/cases/" + CASE + "/decisions", "decide"));
    northern.put("planId", add(north, "/v1/cases/" + CASE + "/plans", "adoptPlan"));
    String determinations = "/v1/decisions/" + northern.get("decisionId") + "/determinations";
    northern.put("determinationId", add(north, determinations, "determine"));
    recordCase(north, "gone");
    erasedDecision = add(north, "/v1/cases/gone/decisions", "decide");
    northern.put("erasureId", located(as(north, erasure("gone")).post("/v1/erasures")));
    as(north, Examples.ownCriteriaSet("1")).post("/v1/criteria-sets").then().statusCode(201);
    northern.put("jobId", job(north));
    recordCase(south, "knee-of-south");
    southernDecision = add(south, "/v1/cases/knee-of-south/decisions", "decide");
  }

  void recordCase(String token, String caseId) {
    as(token, Examples.kneeCase()).put("/v1/cases/" + caseId).then().statusCode(201);
  }

  /** Sends what {@link #BODIES} has for the operation; the id of what this made. */
  String add(String token, String path, String operation) {
    return located(as(token, BODIES.get(operation)).post(path));
  }

  private String job(String token) {
    String place =
        as(token, "{\"kind\":\"case\",\"caseId\":\"k\",\"body\":{}}")
            .contentType("application/x-ndjson")
            .header("Prefer", "respond-async")
            .post("/v1/bulk")
            .header("Location");
    return place.substring(place.lastIndexOf('/') + 1);
  }

  private static String located(Response made) {
    assertThat(made.statusCode()).as(made.asString()).isEqualTo(201);
    String place = made.header("Location");
    return place.substring(place.lastIndexOf('/') + 1);
  }

  static String erasure(String caseId) {
    return Examples.changed("valid/erasure-request/everything", json -> json.put("caseId", caseId));
  }

  /** A request that records. */
  RequestSpecification as(String token, String body) {
    return service.record(body).header("Authorization", "Bearer " + token);
  }

  /** A request. */
  RequestSpecification as(String token) {
    return service.http().header("Authorization", "Bearer " + token);
  }
}
