package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.openapi.Repository;
import io.restassured.response.Response;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.extension.RegisterExtension;
import tools.jackson.databind.JsonNode;

/** Every status that {@code openapi.yaml} documents is really answered, for every operation. */
class EveryStatusTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  private static final String TOO_LARGE = " ".repeat(1 << 20) + "{}";
  private static final String TOO_MANY_LINES = "{}\n".repeat(100_001);

  private static Samples samples;

  /**
   * Answered only while another request holds a lock, which {@code IdempotencyTest} does, or by a
   * service whose ledger is off, which {@link LedgerOffTest} is.
   */
  private static final List<String> ELSEWHERE =
      List.of("decide 409", "adoptPlan 409", "getProof 409", "getCheckpoint 404");

  @BeforeAll
  static void recordSomething() {
    samples = Samples.recordedIn(SERVICE);
  }

  @TestFactory
  Stream<DynamicTest> status_documented_isAnswered() {
    List<DynamicTest> tests = new ArrayList<>();
    for (JsonNode path : Repository.openApi().path("paths")) {
      for (JsonNode operation : path) {
        String id = operation.path("operationId").asString();
        for (String status : operation.path("responses").propertyNames()) {
          // A failing store is tried by UnavailableTest, a failing service by ProblemsTest.
          boolean serverFault = status.equals("default") || status.equals("503");
          // Asking for credentials is tried by RoleMatrixTest, asking too often by RateLimitTest.
          boolean elsewhere = serverFault || List.of("401", "429").contains(status);
          if (!elsewhere && !ELSEWHERE.contains(id + " " + status)) {
            tests.add(
                DynamicTest.dynamicTest(
                    id + " " + status,
                    () ->
                        assertThat(provoke(id, status).statusCode()).asString().isEqualTo(status)));
          }
        }
      }
    }
    return tests.stream();
  }

  @Test
  void operation_documented_hasASample() {
    List<String> ids = Repository.openApi().path("paths").findValuesAsString("operationId");
    assertThat(samples.operationIds()).containsExactlyElementsOf(ids);
  }

  private static Response provoke(String id, String status) {
    Sample sample = samples.of(id);
    return switch (status) {
      case "200" -> sample.send(SERVICE);
      case "201" -> created(id, sample);
      case "202" -> sample.send(SERVICE, r -> r.header("Prefer", "respond-async"));
      case "304" ->
          sample.send(SERVICE, r -> r.header("If-None-Match", sample.send(SERVICE).header("ETag")));
      case "400" -> sample.at(more(sample, "nope=1")).send(SERVICE);
      case "403" -> sample.send(SERVICE, r -> r.header("Host", "evil.example"));
      case "404" -> sample.at(sample.unknown()).send(SERVICE);
      case "410" -> sample.at(erased(id, sample)).send(SERVICE);
      case "406" -> sample.send(SERVICE, r -> r.header("Accept", "text/csv"));
      case "409" -> conflicting(id, sample);
      case "412" ->
          id.equals("callCdsService")
              ? sample.with(Samples.hook("nobody")).send(SERVICE)
              : changedCase(sample)
                  .send(SERVICE, r -> r.header("If-Match", "\"" + "A".repeat(43) + "\""));
      case "413" ->
          sample.with(id.equals("recordLines") ? TOO_MANY_LINES : TOO_LARGE).send(SERVICE);
      case "414" -> sample.at(more(sample, "x=" + "a".repeat(4096))).send(SERVICE);
      case "415" -> sample.send(SERVICE, r -> r.contentType("text/plain"));
      case "422" -> unprocessable(id, sample).send(SERVICE);
      case "428" -> changedCase(sample).send(SERVICE);
      case "431" -> sample.send(SERVICE, r -> r.header("X-Large", "a".repeat(20_000)));
      default -> throw new AssertionError("nothing here provokes " + id + " " + status);
    };
  }

  private static Sample unprocessable(String id, Sample sample) {
    if (sample.body().isPresent()) {
      return sample.with("{}");
    }
    String path = sample.path().split("\\?", 2)[0];
    return sample.at(
        path + (id.equals("getMilestones") ? "?asOf=1999-12-31" : "?milestone=start-jumping"));
  }

  private static Response conflicting(String id, Sample sample) {
    return switch (id) {
      case "getEvidence" -> sample.at(more(sample, "since=99999999")).send(SERVICE);
      case "getChanges" ->
          sample
              .at(sample.path().replace(samples.otherDecision, samples.foreignDecision))
              .send(SERVICE);
      default -> sample.with(otherContent(id)).send(SERVICE);
    };
  }

  private static String more(Sample sample, String parameter) {
    return sample.path() + (sample.path().contains("?") ? "&" : "?") + parameter;
  }

  private static String erased(String id, Sample sample) {
    return id.equals("getDetermination")
        ? "/v1/determinations/" + samples.erasedDetermination
        : sample.unknown().replace(Samples.NO_ID, samples.erasedDecision);
  }

  private static Response created(String id, Sample sample) {
    return switch (id) {
      case "putCase" -> sample.at("/v1/cases/" + id).send(SERVICE);
      case "addBattery" ->
          sample.with(withoutRecordId("valid/battery/strength-and-hops")).send(SERVICE);
      case "addSession" -> sample.with(withoutRecordId("valid/session/first-run")).send(SERVICE);
      case "addFhirObservations" ->
          sample.with(Examples.fhirObservations("hop-2", 126)).send(SERVICE);
      case "publishCriteriaSet" -> sample.with(Examples.ownCriteriaSet("2")).send(SERVICE);
      case "erase" -> {
        SERVICE.json(Examples.kneeCase()).put("/v1/cases/again").then().statusCode(201);
        yield sample.with(Samples.erasureOf("again")).send(SERVICE);
      }
      default -> sample.send(SERVICE);
    };
  }

  private static Sample changedCase(Sample sample) {
    return sample.with(Examples.changed("valid/case/minimal", json -> json.put("birthYear", 1999)));
  }

  private static String otherContent(String id) {
    if (id.equals("publishCriteriaSet")) {
      return Examples.changed(
          "valid/criteria-set/at-least-three-of-four",
          json -> json.put("version", "1").put("title", "Another title"));
    }
    if (id.equals("addSession")) {
      return otherSession();
    }
    if (id.equals("addFhirObservations")) {
      return Examples.fhirObservations("hop-1", 127.5);
    }
    return Examples.changed(
        "valid/battery/strength-and-hops",
        json -> json.putObject("bodyMass").put("value", 70.5).put("unit", "kg"));
  }

  private static String otherSession() {
    return Examples.changed(
        "valid/session/first-run", json -> json.put("recordedAt", "2026-03-11T08:00:00+01:00"));
  }

  private static String withoutRecordId(String path) {
    return Examples.changed(path, json -> json.remove("recordId"));
  }
}
