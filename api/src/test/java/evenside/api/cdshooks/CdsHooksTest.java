package evenside.api.cdshooks;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import evenside.api.Examples;
import evenside.api.LiveService;
import evenside.api.openapi.Repository;
import io.restassured.response.Response;
import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * Discovery, call and card against a schema written from the attribute tables of CDS Hooks 2.0.
 *
 * <p>Source: CDS Hooks 2.0, HL7; no conformance checker that works offline was found.
 */
class CdsHooksTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  private static final String ID = "https://evenside.example/tests/cdshooks-2.0.schema.json";
  private static final SchemaRegistry TABLES = tables();

  private static String decision = "";

  private static SchemaRegistry tables() {
    try {
      String text =
          Files.readString(
              Repository.path("api/src/test/resources/evenside/api/cdshooks-2.0.schema.json"));
      return SchemaRegistry.withDefaultDialect(
          SpecificationVersion.DRAFT_2020_12, builder -> builder.schemas(Map.of(ID, text)));
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  private static List<?> faults(String table, String json) {
    Schema schema = TABLES.getSchema(SchemaLocation.of(ID + "#/$defs/" + table));
    return schema.validate(json, InputFormat.JSON);
  }

  @BeforeAll
  static void recordDecision() {
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/c").then().statusCode(201);
    String undecided = Examples.changed("valid/case/minimal", json -> json.put("subject", "S-2"));
    SERVICE.json(undecided).put("/v1/cases/d").then().statusCode(201);
    SERVICE.record(Examples.battery()).post("/v1/cases/c/batteries").then().statusCode(201);
    SERVICE.record(Examples.decisionRequest()).post("/v1/cases/c/decisions");
    String full = Examples.text("valid/decision-request/by-criteria-set");
    decision = SERVICE.record(full).post("/v1/cases/c/decisions").path("decisionId");
  }

  private static String hook(String patient) {
    return Examples.fhir("hook").replace("PATIENT", patient);
  }

  private static Response call(String body) {
    return SERVICE.json(body).post("/cds-services/readiness");
  }

  private static JsonNode card(String patient) {
    Response answer = call(hook(patient));
    assertThat(answer.statusCode()).as(answer.asString()).isEqualTo(200);
    assertThat(faults("response", answer.asString())).isEmpty();
    return JsonMapper.shared().readTree(answer.asString()).path("cards").path(0);
  }

  @Test
  void discovery_followsTheTable() {
    String answer = SERVICE.http().get("/cds-services").asString();
    assertThat(faults("discovery", answer)).isEmpty();
    assertThat(answer).contains("patient-view");
  }

  @Test
  void card_isMadeOfTheNewestDecision() {
    JsonNode card = card("S-0417");
    JsonNode json =
        JsonMapper.shared().readTree(SERVICE.http().get("/v1/decisions/" + decision).asString());
    assertThat(card.path("uuid").asString()).isEqualTo(decision);
    assertThat(card.path("indicator").asString()).isEqualTo("warning");
    assertThat(card.path("summary").asString()).startsWith("Not met: ").hasSizeLessThan(140);
    assertThat(card.at("/source/label").asString())
        .isEqualTo(
            json.at("/criteriaSet/title").asString()
                + ", version "
                + json.at("/criteriaSet/version").asString());
    for (JsonNode criterion : json.path("finding").path("of")) {
      if (!criterion.has("of")) {
        assertThat(card.path("detail").asString())
            .contains("| " + criterion.path("title").asString() + " | ");
      }
    }
    assertThat(card.path("detail").asString()).contains("87.9\u00a0%", "clinician decides");
    assertThat(card.propertyNames()).doesNotContain("suggestions", "selectionBehavior");
  }

  @Test
  void card_whoseTestsWereCorrectedSince_saysSo() {
    String person = Examples.changed("valid/case/minimal", json -> json.put("subject", "S-9"));
    SERVICE.json(person).put("/v1/cases/k").then().statusCode(201);
    String first =
        Examples.changed("valid/battery/strength-and-hops", json -> json.put("recordId", "k-1"));
    String id = SERVICE.record(first).post("/v1/cases/k/batteries").path("batteryId");
    SERVICE.record(Examples.decisionRequest()).post("/v1/cases/k/decisions");
    assertThat(card("S-9").path("detail").asString()).doesNotContain("corrected since");
    String second =
        Examples.changed(
            "valid/battery/strength-and-hops",
            json -> json.put("recordId", "k-2").put("replaces", id));
    SERVICE.record(second).post("/v1/cases/k/batteries").then().statusCode(201);
    assertThat(card("S-9").path("detail").asString())
        .contains("corrected since", "Ask for a new decision");
    assertThat(card("S-9").path("indicator").asString()).isEqualTo("warning");
  }

  /** Units are those that people read, not UCUM codes. */
  @Test
  void card_units_areThoseOfTheTrade() {
    assertThat(card("S-0417").path("detail").asString())
        .contains("| 85 | > 90 |", "| > 90\u00a0% |")
        .doesNotContain("score |", "{", "}");
  }

  @Test
  void link_ofACard_leadsToTheDecision() {
    String url = card("S-0417").at("/links/0/url").asString();
    String path = url.replaceFirst("http://127.0.0.1:[0-9]+", "");
    assertThat(SERVICE.http().get(path).asString()).contains(decision);
  }

  @Test
  void card_shown_isNotedInTheTrail() {
    card("S-0417");
    assertThat(
            SERVICE
                .http()
                .get("/v1/accesses?decisionId=" + decision)
                .jsonPath()
                .getList("items.action"))
        .contains("card");
  }

  @Test
  void patient_withTypeBeforeTheId_isTheSame() {
    assertThat(card("Patient/S-0417").path("uuid").asString()).isEqualTo(decision);
  }

  @Test
  void patient_withoutDecision_hasNoCard() {
    assertThat(call(hook("S-2")).asString()).isEqualTo("{\"cards\":[]}");
  }

  @Test
  void patient_unknown_is412() {
    Response answer = call(hook("nobody"));
    assertThat(answer.statusCode()).isEqualTo(412);
    assertThat(answer.path("type").toString()).endsWith("/nothing-to-answer-from");
  }

  /** Every optional member of the request table, and one that no table has. */
  @Test
  void call_withEverythingTheTablesAllow_isAnswered() {
    ObjectNode body = (ObjectNode) JsonMapper.shared().readTree(hook("S-0417"));
    body.put("fhirServer", "https://ehr.example/fhir");
    body.putObject("fhirAuthorization")
        .put("access_token", "opaque")
        .put("token_type", "Bearer")
        .put("expires_in", 300)
        .put("scope", "user/Observation.read")
        .put("subject", "evenside");
    ((ObjectNode) body.path("context")).put("encounterId", "e-1");
    body.putObject("prefetch").putNull("nothing-found");
    body.putObject("extension").put("example.clinic.ward", "physio-2");
    assertThat(faults("request", body.toString())).isEmpty();
    assertThat(call(body.toString()).statusCode()).isEqualTo(200);
  }

  static Stream<Arguments> spoilt() {
    return Stream.of(
        spoilt("#/hook", json -> json.remove("hook")),
        spoilt("#/hook", json -> json.put("hook", "")),
        spoilt("#/hookInstance", json -> json.remove("hookInstance")),
        spoilt("#/hookInstance", json -> json.put("hookInstance", "17")),
        spoilt("#/context", json -> json.remove("context")),
        spoilt("#/context", json -> json.put("context", "S-0417")),
        spoilt("#/context/patientId", json -> context(json).remove("patientId")),
        spoilt("#/context/patientId", json -> context(json).put("patientId", 417)),
        spoilt("#/context/userId", json -> context(json).remove("userId")),
        spoilt("#/prefetch", json -> json.putArray("prefetch")),
        spoilt(
            "#/fhirServer",
            json ->
                json.putObject("fhirAuthorization")
                    .put("access_token", "opaque")
                    .put("token_type", "Bearer")
                    .put("expires_in", 300)
                    .put("scope", "user/Observation.read")
                    .put("subject", "evenside")));
  }

  private static Arguments spoilt(String pointer, Consumer<ObjectNode> change) {
    return Arguments.of(pointer, change);
  }

  private static ObjectNode context(ObjectNode json) {
    return (ObjectNode) json.path("context");
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("spoilt")
  void call_againstTheTable_isRefusedAtItsPlace(String pointer, Consumer<ObjectNode> change) {
    ObjectNode body = (ObjectNode) JsonMapper.shared().readTree(hook("S-0417"));
    change.accept(body);
    assertThat(faults("request", body.toString())).isNotEmpty();
    Response answer = call(body.toString());
    assertThat(answer.statusCode()).as(answer.asString()).isEqualTo(422);
    assertThat(answer.jsonPath().getList("faults.pointer")).isEqualTo(List.of(pointer));
  }

  @Test
  void call_ofAnotherHook_isRefused() {
    String body = hook("S-0417").replace("patient-view", "order-sign");
    assertThat(call(body).jsonPath().getString("faults[0].pointer")).isEqualTo("#/hook");
  }

  /** The schema itself can fail: a card that breaks one row of the tables each. */
  @Test
  void table_noticesBrokenCards() {
    ObjectNode good = (ObjectNode) card("S-0417");
    List<Consumer<ObjectNode>> breaks =
        List.of(
            json -> json.put("summary", "x".repeat(140)),
            json -> json.remove("indicator"),
            json -> json.put("indicator", "urgent"),
            json -> json.remove("source"),
            json -> json.putObject("source"),
            json -> json.put("detail", ""),
            json -> json.putNull("detail"),
            json -> json.putArray("suggestions").addObject().put("label", "x"),
            json -> ((ObjectNode) json.at("/links/0")).put("type", "relative"),
            json -> ((ObjectNode) json.at("/links/0")).put("appContext", "x"));
    for (Consumer<ObjectNode> change : breaks) {
      ObjectNode json = good.deepCopy();
      change.accept(json);
      assertThat(faults("card", json.toString())).as(json.toString()).isNotEmpty();
    }
  }
}
