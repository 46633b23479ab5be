package evenside.api.bulk;

import static evenside.api.LinesService.history;
import static evenside.api.LinesService.line;
import static evenside.api.LinesService.ndjson;
import static evenside.api.LinesService.trees;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.Examples;
import evenside.api.LinesService;
import evenside.ledger.LedgerAudit;
import evenside.note.SigningKey;
import evenside.readiness.recording.Page;
import evenside.store.database.StoreSettings;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** A clinic hands over the histories of many knees at once. */
class BulkTest {
  @TempDir private static Path folder;
  @AutoClose private static LinesService clinic;

  @BeforeAll
  static void start() {
    clinic = new LinesService(folder, StoreSettings.inFolder(folder), SigningKey.generate(), false);
  }

  private static List<Integer> statuses(List<JsonNode> answers) {
    return answers.stream().map(answer -> answer.path("status").asInt()).toList();
  }

  private static List<String> ids(List<JsonNode> answers) {
    return answers.stream().map(answer -> answer.path("id").asString()).toList();
  }

  private static Page decisions(String caseId) {
    return clinic.service.decisions().ofCase("local", caseId, Optional.empty(), 100);
  }

  @Test
  void histories_areRecordedInTheOrderOfEachCase_andAnsweredInTheOrderOfTheLines()
      throws Exception {
    List<ObjectNode> lines = history(0, 40);
    // Another order of the whole, in which the lines of each case keep theirs.
    List<Integer> turns = new ArrayList<>();
    IntStream.range(0, lines.size()).forEach(i -> turns.add(i / 3));
    Collections.shuffle(turns, new Random(7));
    int[] next = new int[40];
    List<ObjectNode> mixed = turns.stream().map(i -> lines.get(3 * i + next[i]++)).toList();

    List<JsonNode> answers = clinic.record(mixed);

    assertThat(answers).hasSize(120);
    assertThat(statuses(answers)).containsOnly(201);
    for (int i = 0; i < answers.size(); i++) {
      assertThat(answers.get(i).path("line").asInt()).isEqualTo(i + 1);
      if (mixed.get(i).path("kind").asString().equals("case")) {
        assertThat(answers.get(i).path("id")).isEqualTo(mixed.get(i).path("caseId"));
      }
      assertThat(clinic.get(answers.get(i).path("location").asString()).statusCode())
          .isEqualTo(200);
    }
    assertThat(LedgerAudit.of(clinic.store, "local")).isEmpty();
  }

  @Test
  void sameLinesAgain_recordNothingTwice() throws Exception {
    List<ObjectNode> lines = history(100, 5);
    List<JsonNode> first = clinic.record(lines);
    List<JsonNode> second = clinic.record(lines);
    assertThat(ids(second)).isEqualTo(ids(first));
    assertThat(second.get(2).path("replayed").asBoolean()).isTrue();
    assertThat(statuses(second)).startsWith(200, 201, 201);
    assertThat(decisions("knee-100").items()).hasSize(1);
  }

  @Test
  void badLines_areRefusedEachForItself_andHarmNoOther() throws Exception {
    List<ObjectNode> good = history(200, 2);
    ObjectNode faulty = line("battery", "knee-200", "{\"schemaVersion\":\"1.0\"}");
    List<Object> lines = new ArrayList<>(good.subList(0, 3));
    lines.add("{not json");
    lines.add(faulty);
    lines.add("{\"kind\":\"poem\",\"caseId\":\"knee-200\",\"body\":{}}");
    lines.add("{\"kind\":\"case\",\"body\":[],\"extra\":1,\"decisionId\":\"x\"}");
    lines.add("{\"kind\":\"battery\",\"caseId\":\"nobody\",\"body\":{}}");
    lines.add("{\"kind\":\"case\",\"caseId\":\"" + "x".repeat(70_000) + "\"}");
    lines.add("");
    lines.addAll(good.subList(3, 6));

    List<JsonNode> answers = clinic.record(lines);

    assertThat(statuses(answers))
        .containsExactly(201, 201, 201, 400, 422, 422, 422, 404, 413, 201, 201, 201);
    assertThat(answers.get(9).path("line").asInt()).as("the empty line counts").isEqualTo(11);
    assertThat(answers.get(3).at("/problem/code").asString()).isEqualTo("json.malformed");
    assertThat(answers.get(4).at("/problem/faults").size()).isGreaterThan(2);
    assertThat(answers.get(5).at("/problem/faults/0/pointer").asString()).isEqualTo("#/kind");
    assertThat(answers.get(5).at("/problem/faults/0/limit").asString()).contains("determination");
    assertThat(answers.get(6).at("/problem/faults").findValuesAsString("pointer"))
        .containsExactly("#/body", "#/caseId", "#/decisionId", "#/extra");
    assertThat(answers.get(8).at("/problem/detail").asString()).contains("65536 bytes");
  }

  /** A line has no If-Match, so it is told where a case can be changed. */
  @Test
  void lineWithAnotherCase_isLedToItsPath() throws Exception {
    ObjectNode first = line("case", "knee-210", Examples.kneeCase());
    ObjectNode other = first.deepCopy();
    ((ObjectNode) other.path("body")).put("subject", "S-210");
    List<JsonNode> answers = clinic.record(List.of(first, other));
    assertThat(statuses(answers)).containsExactly(201, 428);
    assertThat(answers.get(1).at("/problem/detail").asString())
        .contains("lines do not change a case", "PUT");
  }

  @Test
  void lineWithTheKeyOfAnEarlierRequest_isThatRequest() throws Exception {
    clinic.record(history(300, 1));
    ObjectNode line = line("decision-request", "knee-300", Examples.decisionRequest());
    line.put("idempotencyKey", "by hand");
    assertThat(statuses(clinic.record(List.of(line)))).as("a space is not visible").contains(422);
    line.put("idempotencyKey", "by-hand");
    HttpResponse<String> single =
        HttpClient.newHttpClient()
            .send(
                HttpRequest.newBuilder(clinic.url().resolve("/v1/cases/knee-300/decisions"))
                    .header("Content-Type", "application/json")
                    .header("Idempotency-Key", "by-hand")
                    .POST(BodyPublishers.ofString(Examples.decisionRequest()))
                    .build(),
                BodyHandlers.ofString());
    assertThat(single.statusCode()).isEqualTo(201);
    JsonNode answer = clinic.record(List.of(line)).get(0);
    assertThat(single.headers().firstValue("Location"))
        .contains(answer.path("location").asString());
    assertThat(answer.path("replayed").asBoolean()).isTrue();
    ((ObjectNode) line.path("body")).put("asOf", "2026-11-30");
    assertThat(statuses(clinic.record(List.of(line)))).as("key reused").containsExactly(422);
  }

  @Test
  void determination_isRecordedOnItsDecision() throws Exception {
    String decision = ids(clinic.record(history(400, 1))).get(2);
    ObjectNode line =
        line(
            "determination",
            "",
            Examples.changed(
                "valid/determination/not-cleared",
                json -> json.put("reason", "Tests are missing.")));
    line.remove("caseId");
    line.put("decisionId", decision);
    JsonNode answer = clinic.record(List.of(line)).get(0);
    String location = answer.path("location").asString();
    assertThat(location).startsWith("/v1/determinations/");
    assertThat(clinic.get(location).body()).contains("\"client\":\"local\"");
  }

  @Test
  void thousandLines_areAnsweredAtOnce_andOneMoreMakesAJob() throws Exception {
    List<ObjectNode> cases =
        IntStream.rangeClosed(0, 1000)
            .mapToObj(i -> line("case", "many-" + i, Examples.kneeCase()))
            .toList();
    assertThat(clinic.record(cases.subList(0, 1000))).hasSize(1000);
    HttpResponse<String> job = clinic.post(ndjson(cases));
    assertThat(job.statusCode()).isEqualTo(202);
    assertThat(job.headers().firstValue("Retry-After")).isPresent();
    JsonNode progress = trees(job.body()).get(0);
    assertThat(progress.path("lines").asInt()).isEqualTo(1001);
    assertThat(progress.path("stored").asInt()).as("done while it came").isEqualTo(1000);
    assertThat(progress.path("waiting").asInt()).isEqualTo(1);
    assertThat(clinic.get(progress.path("results").asString()).body().lines()).hasSize(1000);
  }

  @Test
  void emptyBody_andOtherMediaType_areRefused() throws Exception {
    assertThat(clinic.post("\n\n").statusCode()).isEqualTo(400);
    assertThat(clinic.post("").statusCode()).isEqualTo(400);
    HttpResponse<String> json =
        HttpClient.newHttpClient()
            .send(
                HttpRequest.newBuilder(clinic.url().resolve("/v1/bulk"))
                    .header("Content-Type", "application/json")
                    .POST(BodyPublishers.ofString("{}"))
                    .build(),
                BodyHandlers.ofString());
    assertThat(json.statusCode()).isEqualTo(415);
    assertThat(json.body()).contains("application/x-ndjson");
  }

  @Test
  void jobOfNobody_isNotFound() throws Exception {
    assertThat(clinic.get("/v1/jobs/00000000-0000-7000-8000-000000000000").statusCode())
        .isEqualTo(404);
    assertThat(clinic.get("/v1/jobs/x/results").statusCode()).isEqualTo(404);
  }
}
