package evenside.api.bulk;

import static evenside.api.LinesService.history;
import static evenside.api.LinesService.line;
import static evenside.api.LinesService.ndjson;
import static evenside.api.LinesService.trees;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.api.Examples;
import evenside.api.LinesService;
import evenside.ledger.LedgerAudit;
import evenside.note.SigningKey;
import evenside.readiness.Jobs;
import evenside.readiness.recording.IdempotencyKey;
import evenside.readiness.recording.Refused;
import evenside.store.database.StoreSettings;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A clinic's whole past comes in, too much to wait for. */
@Timeout(120)
class JobsTest {
  @TempDir private Path folder;
  private final SigningKey key = SigningKey.generate();

  private LinesService start(boolean working) {
    return new LinesService(folder, StoreSettings.inFolder(folder), key, working);
  }

  private static JsonNode whenDone(LinesService clinic, String place) throws Exception {
    while (true) {
      HttpResponse<String> response = clinic.get(place);
      JsonNode job = trees(response.body()).get(0);
      boolean done = job.path("state").asString().equals("done");
      assertThat(response.headers().firstValue("Retry-After").isEmpty()).isEqualTo(done);
      if (done) {
        return job;
      }
      Thread.sleep(100);
    }
  }

  @Test
  void job_isDoneByWhoeverComesNext_alsoAfterARestart_andEachLineOnce() throws Exception {
    List<Object> lines = new ArrayList<>(history(0, 100));
    lines.add("{broken");
    String place;
    try (LinesService clinic = start(false)) {
      HttpResponse<String> accepted = clinic.post(ndjson(lines), "Prefer", "respond-async");
      assertThat(accepted.statusCode()).isEqualTo(202);
      assertThat(accepted.headers().firstValue("Preference-Applied")).contains("respond-async");
      place = accepted.headers().firstValue("Location").orElseThrow();
      // A process takes the job, does the first lines without filing them, and dies.
      List<JsonNode> first = clinic.record(lines.subList(0, 30));
      assertThat(first).hasSize(30);
      Jobs jobs = clinic.service.jobs();
      assertThat(jobs.take(jobs.unfinished().get(0), UUID.randomUUID(), Duration.ofSeconds(2), 5))
          .isPresent();
    }
    try (LinesService clinic = start(true)) {
      JsonNode job = whenDone(clinic, place);
      assertThat(job.path("lines").asInt()).isEqualTo(301);
      assertThat(job.path("stored").asInt()).isEqualTo(300);
      assertThat(job.path("refused").asInt()).isEqualTo(1);
      List<JsonNode> answers = trees(clinic.get(job.path("results").asString()).body());
      assertThat(answers.stream().map(answer -> answer.path("line").asInt()))
          .hasSize(301)
          .isSorted();
      assertThat(answers.get(2).path("replayed").asBoolean()).isTrue();
      assertThat(answers.get(300).path("status").asInt()).isEqualTo(400);
      for (int i = 0; i < 100; i++) {
        assertThat(
                clinic
                    .service
                    .decisions()
                    .ofCase("local", "knee-" + i, Optional.empty(), 5)
                    .items())
            .hasSize(1);
      }
      assertThat(LedgerAudit.of(clinic.store, "local")).isEmpty();
      assertThat(clinic.service.jobs().unfinished()).isEmpty();
      assertThatThrownBy(
              () -> clinic.service.jobs().progress("other", place.substring("/v1/jobs/".length())))
          .as("of another clinic")
          .isInstanceOf(Refused.class);
    }
  }

  @Test
  void erasedCase_isErasedFromWaitingWorkToo() throws Exception {
    try (LinesService clinic = start(false)) {
      String decision = clinic.record(history(0, 1)).get(2).path("id").asString();
      List<Object> lines = new ArrayList<>(history(0, 2));
      // What a clinician said is filed under the decision, and goes with the case too.
      lines.add(
          line("determination", "", Examples.text("valid/determination/deferred"))
              .without("caseId")
              .put("decisionId", decision));
      HttpResponse<String> accepted = clinic.post(ndjson(lines), "Prefer", "respond-async");
      assertThat(trees(accepted.body()).get(0).path("waiting").asInt()).isEqualTo(7);
      clinic
          .service
          .erasures()
          .erase("local", erasure("knee-0"), Optional.of(new IdempotencyKey("e", "0".repeat(64))));
      String place = accepted.headers().firstValue("Location").orElseThrow();
      assertThat(trees(clinic.get(place).body()).get(0).path("waiting").asInt()).isEqualTo(3);
    }
  }

  private static JsonNode erasure(String caseId) {
    return JsonMapper.shared()
        .readTree(
            Examples.changed(
                "valid/erasure-request/everything", json -> json.put("caseId", caseId)));
  }
}
