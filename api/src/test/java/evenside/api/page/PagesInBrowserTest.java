package evenside.api.page;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.RunningService;
import evenside.api.TestSettings;
import evenside.api.browser.Browser;
import evenside.api.settings.Catalogue;
import io.restassured.RestAssured;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/**
 * Every kind of page in a real browser: rules of accessibility by axe-core (WCAG 2 A and AA and its
 * best practices), no overflow at phone width and on paper, and the keyboard. Pictures of all pages
 * are written to the folder in EVENSIDE_PICTURES, if it is set.
 */
class PagesInBrowserTest {
  private static final int DESKTOP = 1100;

  /** A narrow phone in CSS pixels; common practice, no source. */
  private static final int PHONE = 360;

  /** The printable width of A4 with our margins, at 96 pixels an inch. */
  private static final int PAPER = 680;

  @TempDir private static Path folder;
  private static RunningService service;
  private static Browser browser;
  private static final List<String> PAGES =
      new ArrayList<>(
          List.of(
              "/",
              "/docs",
              "/docs/problems",
              "/docs/measures",
              "/docs/measures/single-hop-distance",
              "/docs/criteria-sets/delaware-oslo/2020.1",
              "/docs/progressions/acl-progression/0.1",
              "/docs/schemas/1.0/case",
              "/docs/api",
              "/problems/invalid-document",
              "/v1/cases/knee-05/progress",
              "/v1/cohort?milestone=return-to-competition"));

  @BeforeAll
  static void start() throws Exception {
    browser = Browser.start();
    service = RunningService.start(TestSettings.in(folder).with(Catalogue.DEMO, "true"));
    List<Map<String, Object>> decisions =
        RestAssured.get(service.url() + "/v1/decisions?limit=200").path("items");
    for (Map<String, Object> decision : decisions) {
      if (List.of("knee-05", "knee-07", "knee-11", "knee-12").contains(decision.get("caseId"))) {
        PAGES.add("/v1/decisions/" + decision.get("decisionId"));
      }
    }
    SheetsTest.determine(service.url(), PAGES.get(PAGES.size() - 1));
  }

  @AfterAll
  static void stop() throws Exception {
    if (browser != null) {
      browser.close();
    }
    if (service != null) {
      service.stop();
    }
  }

  @Test
  void page_any_keepsTheRulesOfAccessibility() throws Exception {
    for (String page : PAGES) {
      browser.open(service.url() + page, DESKTOP);
      picture(page, "desktop");
      assertThat(strings(browser.accessibilityFaults())).as(page).isEmpty();
    }
  }

  @Test
  void page_onAPhone_hasNoOverflow() throws Exception {
    for (String page : PAGES) {
      browser.open(service.url() + page, PHONE);
      picture(page, "phone");
      assertThat(width()).as(page).isLessThanOrEqualTo(PHONE);
    }
  }

  @Test
  void page_onPaper_hasNoOverflow() throws Exception {
    browser.media("print");
    try {
      for (String page : PAGES) {
        browser.open(service.url() + page, PAPER);
        assertThat(width()).as(page).isLessThanOrEqualTo(PAPER);
        assertThat(browser.evaluate("getComputedStyle(document.querySelector('nav')).display"))
            .as(page)
            .hasToString("\"none\"");
      }
    } finally {
      browser.media("");
    }
  }

  @Test
  void page_styleSheet_isAllowedByThePolicy() throws Exception {
    browser.open(service.url() + "/", DESKTOP);
    assertThat(browser.evaluate("document.styleSheets[0].cssRules.length").asInt())
        .isGreaterThan(20);
    assertThat(browser.evaluate("document.scripts.length").asInt()).isZero();
  }

  @Test
  void keyboard_firstTab_offersToSkipToTheContent() throws Exception {
    browser.open(service.url() + "/docs", DESKTOP);
    browser.tab();
    assertThat(browser.evaluate("document.activeElement.getAttribute('href')").asString())
        .isEqualTo("#main");
    assertThat(browser.evaluate("document.activeElement.getBoundingClientRect().left").asDouble())
        .isGreaterThanOrEqualTo(0);
  }

  @Test
  void sheet_printed_saysTheOutcomeOnItsFirstPage() throws Exception {
    String last = PAGES.get(PAGES.size() - 1);
    browser.open(service.url() + last, DESKTOP);
    String heading = browser.evaluate("document.querySelector('h1').innerText").asString();
    String outcome =
        browser.evaluate("document.querySelector('.outcome .word').innerText").asString().strip();
    try (PDDocument pdf = Loader.loadPDF(browser.print())) {
      PDFTextStripper first = new PDFTextStripper();
      first.setEndPage(1);
      assertThat(first.getText(pdf)).contains(heading, outcome, "What to do next");
      assertThat(pdf.getPage(0).getMediaBox().getWidth()).isBetween(594f, 596f);
    }
  }

  private static int width() throws Exception {
    return browser.evaluate("document.documentElement.scrollWidth").asInt();
  }

  private static List<String> strings(JsonNode list) {
    return list.valueStream().map(JsonNode::asString).toList();
  }

  private static void picture(String page, String kind) throws Exception {
    String pictures = System.getenv("EVENSIDE_PICTURES");
    if (pictures != null) {
      String name = page.replaceAll("[^a-z0-9]+", "-") + "-" + kind + ".png";
      Files.write(Path.of(pictures, name), browser.picture());
    }
  }
}
