package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.command.Run;
import evenside.ledger.KeyFiles;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Queue;
import java.util.concurrent.Callable;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer.OrderAnnotation;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * Three processes of the service over one PostgreSQL server with fsync on; then one is killed, and
 * then the server goes away and comes back.
 */
@Timeout(240)
@TestMethodOrder(OrderAnnotation.class)
class ServiceReplicasTest {
  @TempDir private static Path folder;
  private static DatabaseServer server;
  private static final List<ServiceProcess> ALL = new ArrayList<>();

  @BeforeAll
  static void start() throws Exception {
    server = new DatabaseServer(folder.resolve("pg"));
    Path key = folder.resolve("ledger.key");
    KeyFiles.create(key);
    for (int i = 0; i < 3; i++) {
      ALL.add(
          ServiceProcess.start(
              folder.resolve("r" + i), "--database-url", server.url(), "--ledger-key", key));
    }
    for (ServiceProcess each : ALL) {
      each.url();
    }
    HttpResponse<String> answers =
        Http.bulk(ALL.get(0).url(), LinesService.ndjson(LinesService.history(0, 1)));
    assertThat(answers.body().lines()).hasSize(3).allMatch(line -> line.contains("\"status\":201"));
  }

  @AfterAll
  static void stop() throws Exception {
    for (ServiceProcess each : ALL) {
      each.close();
    }
    server.close();
  }

  private static HttpResponse<String> decide(int replica, String key) throws Exception {
    return Http.decide(ALL.get(replica % ALL.size()).url(), "knee-0", key);
  }

  @Test
  @Order(1)
  void hundredEqualPosts_overThreeProcesses_areOneDecision() throws Exception {
    List<Callable<HttpResponse<String>>> posts = new ArrayList<>();
    for (int i = 0; i < 100; i++) {
      int replica = i;
      posts.add(() -> untilAnswered(replica));
    }
    List<HttpResponse<String>> replies = atOnce(posts);
    assertThat(replies).allMatch(reply -> reply.statusCode() == 201);
    assertThat(replies.stream().map(HttpResponse::body).distinct()).hasSize(1);
    assertThat(replies.stream().map(reply -> header(reply, "Location")).distinct()).hasSize(1);
    assertThat(replies.stream().map(reply -> header(reply, "Evenside-Ledger-Index")).distinct())
        .hasSize(1);
    assertThat(replies.stream().filter(reply -> header(reply, "Idempotency-Replayed").isEmpty()))
        .hasSize(1);
  }

  private static List<HttpResponse<String>> atOnce(List<Callable<HttpResponse<String>>> requests)
      throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(requests.size());
    try {
      List<HttpResponse<String>> replies = new ArrayList<>();
      for (Future<HttpResponse<String>> future : pool.invokeAll(requests)) {
        replies.add(future.get());
      }
      return replies;
    } finally {
      pool.shutdownNow();
    }
  }

  /** As a client does: again after Retry-After. */
  private static HttpResponse<String> untilAnswered(int replica) throws Exception {
    while (true) {
      HttpResponse<String> reply = decide(replica, "same");
      if (reply.statusCode() != 503 && reply.statusCode() != 409) {
        return reply;
      }
      assertThat(header(reply, "Retry-After")).isNotEmpty();
      Thread.sleep(1000);
    }
  }

  private static String header(HttpResponse<String> reply, String name) {
    return reply.headers().firstValue(name).orElse("");
  }

  @Test
  @Order(2)
  void listBegunAtOneProcess_goesOnAtAnother() throws Exception {
    String second = header(decide(0, "page-1"), "Location");
    String first = header(decide(1, "page-2"), "Location");
    HttpResponse<String> page = Http.get(ALL.get(0).url(), "/v1/decisions?limit=1");
    assertThat(page.body()).contains(first.substring(first.lastIndexOf('/') + 1));
    String next = header(page, "Link").replaceAll(".*<(.*)>; rel=\"next\".*", "$1");
    HttpResponse<String> other = Http.get(ALL.get(1).url(), next);
    assertThat(other.statusCode()).isEqualTo(200);
    assertThat(other.body()).contains(second.substring(second.lastIndexOf('/') + 1));
  }

  @Test
  @Order(3)
  void killedProcess_leavesNothingHalfWritten_andItsRequestsCanBeSentToAnother() throws Exception {
    Map<String, String> acknowledged = new ConcurrentHashMap<>();
    Queue<String> unanswered = new ConcurrentLinkedQueue<>();
    AtomicBoolean killed = new AtomicBoolean();
    List<Thread> clients = new ArrayList<>();
    for (int i = 0; i < 6; i++) {
      String client = "client-" + i;
      clients.add(
          new Thread(
              () -> {
                for (int n = 0; !killed.get(); n++) {
                  String key = client + "-" + n;
                  try {
                    HttpResponse<String> reply = decide(2, key);
                    if (reply.statusCode() == 201) {
                      acknowledged.put(key, header(reply, "Location"));
                    }
                  } catch (IOException broken) {
                    unanswered.add(key);
                    return;
                  } catch (Exception e) {
                    throw new IllegalStateException(e);
                  }
                }
              }));
    }
    clients.forEach(Thread::start);
    while (acknowledged.size() < 20) {
      Thread.sleep(20);
    }
    ALL.remove(2).kill();
    killed.set(true);
    for (Thread client : clients) {
      client.join();
    }
    for (Map.Entry<String, String> one : acknowledged.entrySet()) {
      HttpResponse<String> again = decide(1, one.getKey());
      assertThat(header(again, "Location")).isEqualTo(one.getValue());
      assertThat(header(again, "Idempotency-Replayed")).isEqualTo("true");
    }
    for (String key : unanswered) {
      HttpResponse<String> again = decide(0, key);
      assertThat(again.statusCode()).isEqualTo(201);
      assertThat(header(again, "Evenside-Ledger-Checkpoint")).isNotEmpty();
    }
    assertThat(audit().out()).endsWith("everything holds" + System.lineSeparator());
  }

  @Test
  @Order(4)
  void serverThatGoesAway_is503_andBackAgainNeedsNoRestart() throws Exception {
    HttpResponse<String> before = decide(0, "before");
    assertThat(before.statusCode()).isEqualTo(201);
    server.close();
    long start = System.nanoTime();
    URI first = ALL.get(0).url();
    URI second = ALL.get(1).url();
    List<HttpResponse<String>> answers =
        atOnce(
            List.of(
                () -> decide(0, "away-0"),
                () -> decide(1, "away-1"),
                () -> Http.get(first, "/readyz"),
                () -> Http.get(second, "/v1/cases/knee-0"),
                () -> Http.get(second, "/livez"),
                () -> Http.bulk(first, LinesService.ndjson(LinesService.history(7, 1)))));
    assertThat((System.nanoTime() - start) / 1_000_000_000L).isLessThan(20);
    assertThat(answers.subList(0, 4))
        .allMatch(reply -> reply.statusCode() == 503)
        .allMatch(reply -> !header(reply, "Retry-After").isEmpty())
        .allMatch(reply -> header(reply, "Content-Type").equals("application/problem+json"))
        .allMatch(reply -> reply.body().contains("problems/unavailable"));
    assertThat(answers.get(4).statusCode()).isEqualTo(200);
    assertThat(answers.get(5).body().lines())
        .hasSize(3)
        .allMatch(line -> line.contains("\"status\":503"));
    server.restart();
    for (int replica = 0; replica < 2; replica++) {
      HttpResponse<String> back = decide(replica, "before");
      for (int attempt = 0; back.statusCode() == 503 && attempt < 20; attempt++) {
        Thread.sleep(500);
        back = decide(replica, "before");
      }
      assertThat(header(back, "Location")).isEqualTo(header(before, "Location"));
      assertThat(decide(replica, "away-" + replica).statusCode()).isEqualTo(201);
      assertThat(Http.get(ALL.get(replica).url(), "/readyz").statusCode()).isEqualTo(200);
    }
    assertThat(audit().exitCode()).isZero();
  }

  private static Run audit() {
    return Run.of("audit", "--database-url", server.url());
  }
}
