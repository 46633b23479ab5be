package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentLinkedQueue;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * A service that is told to stop (SIGTERM) while many clients record: first it says that it is not
 * ready, then it takes no more connections; what it accepted it answers, and nothing acknowledged
 * is lost. Common practice, no source.
 */
class StopTest {
  private static final int CLIENTS = 12;

  @TempDir Path folder;

  private final Map<String, Integer> answers = new ConcurrentHashMap<>();
  private final Collection<String> unanswered = new ConcurrentLinkedQueue<>();
  private final Collection<String> refusals = new ConcurrentLinkedQueue<>();

  @Test
  void signal_underLoad_losesNothingAcknowledged_andLeavesNothingUnanswered() throws Exception {
    List<Integer> readiness;
    int exit;
    try (ServiceProcess service =
        ServiceProcess.start(folder.resolve("data"), "--drain-seconds", "1")) {
      String url = service.url().toString();
      assertThat(record(url, client(), "/v1/cases/c", Examples.kneeCase(), "PUT")).isEqualTo(201);
      List<Thread> clients = load(url);
      Thread.sleep(1500);
      service.terminate();
      readiness = readinessUntilRefused(url);
      exit = service.await();
      for (Thread client : clients) {
        client.join(30_000);
        assertThat(client.isAlive()).isFalse();
      }
      assertThat(service.output()).doesNotContain("ERROR");
    }
    assertThat(exit).isEqualTo(128 + 15);
    assertThat(readiness).contains(503).doesNotHaveDuplicates();
    // Whose request comes in at the moment of the stop is told so; it may be sent again.
    assertThat(refusals)
        .allSatisfy(
            refusal -> assertThat(refusal).startsWith("503 ").contains("The service is stopping."));
    long acknowledged = answers.values().stream().filter(status -> status == 201).count();
    assertThat(acknowledged).isGreaterThan(20);
    assertThat(recorded()).isEqualTo(acknowledged);
  }

  /** Each client records one battery after the other until it is refused. */
  private List<Thread> load(String url) {
    List<Thread> clients = new ArrayList<>();
    for (int i = 0; i < CLIENTS; i++) {
      String name = "c" + i;
      Thread client = new Thread(() -> recordUntilRefused(url, name), name);
      client.start();
      clients.add(client);
    }
    return clients;
  }

  private void recordUntilRefused(String url, String name) {
    HttpClient http = client();
    for (int i = 0; ; i++) {
      String key = name + "-" + i;
      String battery =
          Examples.changed(
              "valid/battery/strength-and-hops", json -> json.put("recordId", "r-" + key));
      try {
        answers.put(key, record(url, http, "/v1/cases/c/batteries", battery, "POST"));
      } catch (IOException refused) {
        unanswered.add(key);
        return;
      }
    }
  }

  private int record(String url, HttpClient http, String path, String body, String method)
      throws IOException {
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(url + path))
            .timeout(Duration.ofSeconds(30))
            .header("Content-Type", "application/json")
            .header("Idempotency-Key", Integer.toHexString(body.hashCode()) + body.length())
            .method(method, HttpRequest.BodyPublishers.ofString(body))
            .build();
    try {
      HttpResponse<String> reply = http.send(request, HttpResponse.BodyHandlers.ofString());
      if (reply.statusCode() != 201) {
        refusals.add(reply.statusCode() + " " + reply.body());
      }
      return reply.statusCode();
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  private static HttpClient client() {
    return HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();
  }

  /** What /readyz says from the signal on, each answer once. */
  private static List<Integer> readinessUntilRefused(String url) throws InterruptedException {
    List<Integer> seen = new ArrayList<>();
    HttpRequest request = HttpRequest.newBuilder(URI.create(url + "/readyz")).build();
    try {
      while (true) {
        int status = client().send(request, HttpResponse.BodyHandlers.discarding()).statusCode();
        if (!seen.contains(status)) {
          seen.add(status);
        }
      }
    } catch (IOException refused) {
      return seen;
    }
  }

  /** Batteries in the record, counted by the service started again. */
  private long recorded() throws Exception {
    RunningService again = RunningService.start(TestSettings.in(folder.resolve("data")));
    try {
      long count = 0;
      String after = "";
      do {
        HttpRequest request =
            HttpRequest.newBuilder(
                    URI.create(again.url() + "/v1/cases/c/batteries?limit=200" + after))
                .build();
        JsonNode page =
            JsonMapper.shared()
                .readTree(client().send(request, HttpResponse.BodyHandlers.ofString()).body());
        count += page.path("items").size();
        after = page.has("next") ? "&after=" + page.path("next").asString() : "";
      } while (!after.isEmpty());
      return count;
    } finally {
      again.stop();
    }
  }
}
