package evenside.api.http;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.equalTo;

import evenside.api.Examples;
import evenside.api.LiveService;
import evenside.api.problem.ProblemType;
import io.restassured.response.Response;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;

/** Lists are paged by position: nothing twice, nothing skipped, whatever arrives meanwhile. */
class PagingTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  private static final int DECISIONS = 11;
  private static final String SEARCH = "/v1/decisions?caseId=c";

  @BeforeAll
  static void record() {
    for (String caseId : List.of("c", "other")) {
      SERVICE.json(Examples.kneeCase()).put("/v1/cases/" + caseId).then().statusCode(201);
    }
    for (int i = 0; i < DECISIONS; i++) {
      decide("c");
    }
    decide("other");
  }

  @Test
  void pages_together_areTheWholeListOnce() {
    List<String> whole = ids(SERVICE.http().get(SEARCH + "&limit=200"));
    assertThat(whole).hasSizeGreaterThanOrEqualTo(DECISIONS).doesNotHaveDuplicates();
    List<String> paged = new ArrayList<>();
    Response page = SERVICE.http().get(SEARCH + "&limit=3");
    while (true) {
      paged.addAll(ids(page));
      String next = page.path("next");
      if (next == null) {
        assertThat(page.header("Link")).isNull();
        break;
      }
      String link = page.header("Link");
      assertThat(link).endsWith("; rel=\"next\"").contains("after=" + next, "limit=3", "caseId=c");
      page = SERVICE.http().get(link.substring(1, link.indexOf('>')));
    }
    assertThat(paged).isEqualTo(whole);
  }

  @Test
  void rows_thatArriveMeanwhile_neitherRepeatNorHideOthers() {
    List<String> before = ids(SERVICE.http().get(SEARCH + "&limit=200"));
    Response first = SERVICE.http().get(SEARCH + "&limit=5");
    decide("c");
    Response second = SERVICE.http().get(SEARCH + "&limit=200&after=" + first.path("next"));
    List<String> seen = new ArrayList<>(ids(first));
    seen.addAll(ids(second));
    assertThat(seen).isEqualTo(before);
  }

  @Test
  void page_withoutALimit_holdsFifty() {
    for (int i = 0; i < 45; i++) {
      decide("other");
    }
    assertThat(ids(SERVICE.http().get("/v1/decisions"))).hasSize(50);
  }

  @Test
  void cursor_ofAnotherListOrChanged_isRefused() {
    String cursor = SERVICE.http().get(SEARCH + "&limit=2").path("next");
    char last = cursor.charAt(cursor.length() - 1);
    List<String> refused =
        List.of(
            "/v1/decisions?after=" + cursor,
            "/v1/decisions?caseId=other&after=" + cursor,
            "/v1/cases/c/decisions?after=" + cursor,
            "/v1/cases/c/batteries?after=" + cursor,
            SEARCH + "&outcome=met&after=" + cursor,
            SEARCH + "&after=" + cursor.substring(0, cursor.length() - 1),
            SEARCH
                + "&after="
                + cursor.substring(0, cursor.length() - 1)
                + (last == 'A' ? 'B' : 'A'),
            SEARCH + "&after=" + cursor + "A",
            SEARCH + "&after=" + "A".repeat(600),
            SEARCH + "&after=",
            SEARCH + "&after=nonsense");
    for (String path : refused) {
      Response answer = SERVICE.http().get(path);
      assertThat(answer.statusCode()).as(path).isEqualTo(400);
      answer.then().body("type", equalTo(ProblemType.BAD_CURSOR.uri()));
    }
    SERVICE.http().get(SEARCH + "&after=" + cursor).then().statusCode(200);
    SERVICE.http().get(SEARCH + "&limit=1&after=" + cursor).then().statusCode(200);
  }

  @Test
  void filters_narrowTheList() {
    Response one = SERVICE.http().get(SEARCH + "&limit=1");
    String set = one.path("items[0].criteriaSet.id");
    String version = one.path("items[0].criteriaSet.version");
    String outcome = one.path("items[0].outcome");
    String milestone = one.path("items[0].criteriaSet.milestone");
    int all = ids(SERVICE.http().get(SEARCH + "&limit=200")).size();
    assertThat(count("&criteriaSet=" + set)).isEqualTo(all);
    assertThat(count("&criteriaSet=" + set + "/" + version)).isEqualTo(all);
    assertThat(count("&criteriaSet=" + set + "/9999")).isZero();
    assertThat(count("&milestone=" + milestone)).isEqualTo(all);
    assertThat(count("&milestone=no-such")).isZero();
    assertThat(count("&outcome=" + outcome)).isEqualTo(all);
    assertThat(count("&outcome=" + (outcome.equals("met") ? "not-met" : "met"))).isZero();
    assertThat(count("&from=2026-12-01T12:00:00Z")).isEqualTo(all);
    assertThat(count("&from=2026-12-01T12:00:01Z")).isZero();
    assertThat(count("&from=2026-12-01T13:00:00%2B01:00")).isEqualTo(all);
    assertThat(count("&to=2026-12-01T12:00:00Z")).isZero();
    assertThat(count("&to=2026-12-01T12:00:01Z")).isEqualTo(all);
  }

  private static int count(String filter) {
    return ids(SERVICE.http().get(SEARCH + "&limit=200" + filter)).size();
  }

  private static List<String> ids(Response page) {
    page.then().statusCode(200);
    return page.path("items.decisionId");
  }

  private static void decide(String caseId) {
    SERVICE
        .record(Examples.decisionRequest())
        .post("/v1/cases/" + caseId + "/decisions")
        .then()
        .statusCode(201);
  }
}
