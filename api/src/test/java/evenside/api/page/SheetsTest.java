package evenside.api.page;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.Examples;
import evenside.api.LiveService;
import io.restassured.response.Response;
import java.io.ByteArrayInputStream;
import java.util.UUID;
import javax.xml.parsers.DocumentBuilder;
import javax.xml.parsers.DocumentBuilderFactory;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.w3c.dom.Document;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** Sheets over HTTP: what stands on them, in which form, and what hostile texts do. */
class SheetsTest {
  private static final String HOSTILE = "<script>alert('1')</script> \" ' & </p> ${7*7} \u0001";
  private static final String DETERMINATION =
      """
      {"schemaVersion": "1.0", "statement": "cleared",
       "clinician": {"reference": "pt-014", "role": "physiotherapist"},
       "reason": "All tests were repeated on the second day.",
       "restrictions": ["No contact for four weeks."]}
      """;

  /** Asks what the published example of a decision was asked, so that its numbers come out. */
  private static final String REQUEST =
      """
      {"schemaVersion": "1.0", "asOf": "2026-08-19",
       "criteriaSet": {"id": "delaware-oslo", "version": "2020.1"}}
      """;

  @RegisterExtension static final LiveService SERVICE = new LiveService();

  private static String decision = "";

  @BeforeAll
  static void record() {
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/c").then().statusCode(201);
    SERVICE.record(Examples.battery()).post("/v1/cases/c/batteries").then().statusCode(201);
    String id = SERVICE.record(REQUEST).post("/v1/cases/c/decisions").path("decisionId");
    decision = "/v1/decisions/" + id;
  }

  /** Records a determination that differs from the outcome. */
  static void determine(String url, String decision) {
    given()
        .contentType("application/json")
        .header("Idempotency-Key", UUID.randomUUID().toString())
        .body(DETERMINATION.getBytes(java.nio.charset.StandardCharsets.UTF_8))
        .post(url + decision + "/determinations")
        .then()
        .statusCode(201);
  }

  @Test
  void decision_withoutAWish_staysJson() {
    assertThat(SERVICE.http().get(decision).contentType()).isEqualTo("application/json");
    Response browser = SERVICE.http().header("Accept", "text/html,*/*;q=0.8").get(decision);
    assertThat(browser.contentType()).isEqualTo("text/html;charset=utf-8");
    assertThat(browser.header("Vary")).startsWith("Accept");
  }

  @Test
  void sheet_ofADecision_showsEveryFindingOfTheDocument() throws Exception {
    JsonNode document = JsonMapper.shared().readTree(SERVICE.http().get(decision).asByteArray());
    String text = text(sheet(decision));
    assertThat(text)
        .contains("Criteria not met", "What to do next", "A licensed clinician decides")
        .contains(document.path("criteriaSet").path("source").asString())
        .contains(document.path("inputsSha256").asString())
        .contains(document.path("decisionId").asString())
        .contains("Entry ");
    for (JsonNode finding : document.path("finding").path("of")) {
      assertThat(text)
          .contains(finding.path("title").asString())
          .contains(finding.path("citation").path("text").asString());
    }
    for (JsonNode caution : document.path("cautions")) {
      assertThat(text).contains(caution.path("text").asString());
    }
  }

  /** The numbers are those of the published example of this decision, rounded by hand. */
  @Test
  void sheet_ofADecision_roundsWithoutTouchingTheOutcome() throws Exception {
    assertThat(text(sheet(decision)).replace('\u00a0', ' '))
        .contains("Operated leg: at least 165.6 N·m (now 161.8 N·m).")
        .contains("87.9 %; asked for at least 90 %; misses it by 2.07 percentage points")
        .contains("Result 92.2 %; asked for at least 90 %; Met.");
  }

  @Test
  void sheet_fingerprint_isThatOfTheBytesServed() throws Exception {
    byte[] bytes = SERVICE.http().get(decision).asByteArray();
    assertThat(text(sheet(decision))).contains(evenside.document.Document.sha256(bytes));
  }

  @Test
  void sheet_words_neverPromise() throws Exception {
    String text = text(sheet(decision)).toLowerCase(java.util.Locale.ROOT);
    assertThat(text).doesNotContain("safe").doesNotContain("cleared to");
  }

  @Test
  void sheet_withAWarningSign_beginsWithStopAndRefer() throws Exception {
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/flag").then().statusCode(201);
    String battery =
        Examples.changed(
            "valid/battery/early-signs",
            json ->
                ((ObjectNode) json.path("results").path("clinicianFact").path(0))
                    .put("value", true));
    SERVICE.record(battery).post("/v1/cases/flag/batteries").then().statusCode(201);
    String id =
        SERVICE
            .record(Examples.decisionRequest())
            .post("/v1/cases/flag/decisions")
            .path("decisionId");
    String text = text(sheet("/v1/decisions/" + id));
    assertThat(text).contains("Stop and refer");
    assertThat(text.indexOf("Stop and refer")).isLessThan(text.indexOf("Decision sheet"));
    assertThat(text.indexOf("Stop and refer")).isLessThan(text.indexOf("Criteria not met"));
  }

  @Test
  void sheet_hostileText_isShownAsText() throws Exception {
    String body =
        Examples.changed("valid/determination/deferred", json -> json.put("reason", HOSTILE));
    SERVICE.record(body).post(decision + "/determinations").then().statusCode(201);
    String html = sheet(decision).asString();
    assertThat(html).doesNotContain("<script");
    assertThat(text(sheet(decision)))
        .contains("<script>alert('1')</script> \" ' & </p> ${7*7} \uFFFD");
    pdf(decision);
  }

  /** The newest record stands first; a reader who goes by its date would take another for last. */
  @Test
  void sheet_saysWhenAnOlderStatementWasRecorded() throws Exception {
    String old =
        Examples.changed(
            "valid/determination/not-cleared",
            json -> json.put("determinedAt", "2026-08-20T16:30:00+02:00"));
    SERVICE.record(old).post(decision + "/determinations").then().statusCode(201);
    String today = "2026-12-01T09:00:00+01:00"; // The service's clock says noon UTC.
    String now =
        Examples.changed(
            "valid/determination/not-cleared", json -> json.put("determinedAt", today));
    SERVICE.record(now).post(decision + "/determinations").then().statusCode(201);
    String text = text(sheet(decision));
    assertThat(text).containsPattern("20 August 2026 \\(recorded [0-9]+ [A-Z][a-z]+ [0-9]{4}, ");
    assertThat(text).doesNotContain(Figures.dayOf(today) + " (recorded");
  }

  /** The document stays as it was, so only the reader's sheet can say that its numbers are old. */
  @Test
  void sheet_whoseTestsWereCorrectedSince_asksForANewDecision() throws Exception {
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/k").then().statusCode(201);
    String battery =
        Examples.changed("valid/battery/strength-and-hops", b -> b.put("recordId", "k-1"));
    String id = SERVICE.record(battery).post("/v1/cases/k/batteries").path("batteryId");
    String made = SERVICE.record(REQUEST).post("/v1/cases/k/decisions").path("decisionId");
    String url = "/v1/decisions/" + made;
    String before = SERVICE.http().get(url).asString();
    assertThat(text(sheet(url))).doesNotContain("Decide again");
    String corrected =
        Examples.changed(
            "valid/battery/strength-and-hops", b -> b.put("recordId", "k-2").put("replaces", id));
    SERVICE.record(corrected).post("/v1/cases/k/batteries").then().statusCode(201);
    assertThat(text(sheet(url)))
        .contains("The tests of 19 August 2026 were corrected after this decision");
    assertThat(SERVICE.http().get(url).asString()).isEqualTo(before);
  }

  @Test
  void sheet_unchanged_isNotSentAgain() {
    String tag = sheet(decision).header("ETag");
    SERVICE
        .http()
        .header("Accept", "text/html")
        .header("If-None-Match", tag)
        .get(decision)
        .then()
        .statusCode(304);
  }

  @Test
  void sheet_policy_allowsNoScript() {
    assertThat(sheet(decision).header("Content-Security-Policy"))
        .contains("default-src 'none'", "style-src 'self'")
        .doesNotContain("script-src", "unsafe");
  }

  @Test
  void sheet_asPdf_holdsTheSameWordsAndSigns() throws Exception {
    assertThat(pdf(decision).replace('\u00a0', ' '))
        .contains("Criteria not met", "What to do next", "161.8 N·m", "SHA-256")
        .doesNotContain("\uFFFD");
  }

  @Test
  void progress_asSheet_showsSeriesAndMilestones() throws Exception {
    String text = text(sheet("/v1/cases/c/progress"));
    assertThat(text)
        .contains("Single hop for distance", "Return to competition", "Numbers over time");
    assertThat(pdf("/v1/cases/c/progress")).contains("Single hop for distance");
  }

  @Test
  void cohort_asSheet_saysWhatIsHidden() throws Exception {
    String text = text(sheet("/v1/cohort?milestone=return-to-competition"));
    assertThat(text).contains("Counts of fewer than 5 people are hidden", "hidden");
    assertThat(pdf("/v1/cohort?milestone=return-to-competition").replace('\u00a0', ' '))
        .contains("Counts of fewer than 5 people are hidden", "Quadriceps strength, symmetry")
        .doesNotContain("\uFFFD");
  }

  private static Response sheet(String path) {
    return SERVICE.http().header("Accept", "text/html").get(path);
  }

  private static String pdf(String path) throws Exception {
    Response answer = SERVICE.http().header("Accept", "application/pdf").get(path);
    assertThat(answer.statusCode()).isEqualTo(200);
    try (PDDocument pdf = Loader.loadPDF(answer.asByteArray())) {
      assertThat(pdf.getDocumentCatalog().getMarkInfo().isMarked()).isTrue();
      return new PDFTextStripper().getText(pdf);
    }
  }

  /** The text of a page, which must be well-formed; entities and tags are gone. */
  private static String text(Response page) throws Exception {
    assertThat(page.statusCode()).isEqualTo(200);
    DocumentBuilder builder = DocumentBuilderFactory.newInstance().newDocumentBuilder();
    builder.setEntityResolver((name, system) -> new InputSource(new java.io.StringReader("")));
    Document document = builder.parse(new ByteArrayInputStream(page.asByteArray()));
    NodeList body = document.getElementsByTagName("body");
    return body.item(0).getTextContent();
  }
}
