package evenside.api.log;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.Examples;
import evenside.api.RawExchange;
import evenside.api.ServiceProcess;
import evenside.api.openapi.Repository;
import java.io.IOException;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer.MethodName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;
import tools.jackson.databind.node.StringNode;

/**
 * A canary (a word found nowhere else) goes into every string of every published example, every
 * header, query and path, one at a time: the log, the numbers and what others are answered never
 * sing of it. Common practice, no source.
 */
@TestMethodOrder(MethodName.class)
class CanaryTest {
  private static final String CANARY = "zzcanary7f3a91";

  private static final HttpClient HTTP = HttpClient.newHttpClient();

  @TempDir static Path folder;
  private static ServiceProcess service;
  private static int sent;

  @BeforeAll
  static void start() throws IOException {
    service = ServiceProcess.start(folder.resolve("data"), "--log-form", "json");
  }

  @AfterAll
  static void stop() {
    service.kill();
  }

  @Test
  void a_bodies_headersAndQueries_areAnswered() throws Exception {
    for (Path file : examples()) {
      String kind = file.getParent().getFileName().toString();
      for (String body : withCanary(Files.readString(file))) {
        send("POST", "/v1/checks/" + kind, body, Map.of());
      }
    }
    assertThat(send("PUT", "/v1/cases/" + CANARY, Examples.kneeCase(), Map.of())).isEqualTo(201);
    String battery =
        Examples.changed("valid/battery/strength-and-hops", json -> json.put("recordId", CANARY));
    Map<String, String> key = Map.of("Idempotency-Key", CANARY);
    assertThat(send("POST", "/v1/cases/" + CANARY + "/batteries", battery, key)).isEqualTo(201);
    for (String body : withCanary(Examples.battery())) {
      send(
          "POST",
          "/v1/cases/" + CANARY + "/batteries",
          body,
          Map.of("Idempotency-Key", CANARY + sent));
    }
    send("POST", "/v1/cases/" + CANARY + "/decisions", Examples.decisionRequest(), Map.of());
    for (JsonNode path : paths()) {
      String filled = path.asString().replaceAll("\\{[^}]*}", CANARY);
      send("GET", filled, "", Map.of());
      send("GET", filled + "?" + CANARY + "=1&after=" + CANARY, "", Map.of());
      send("GET", filled + "?caseId=" + CANARY + "&limit=" + CANARY, "", Map.of());
    }
    for (String name : List.of("Accept", "Authorization", "Cookie", "If-None-Match", "Origin")) {
      send("GET", "/v1/decisions", "", Map.of(name, CANARY));
    }
    send("GET", "/livez", "", Map.of("traceparent", CANARY, "tracestate", CANARY + "=1"));
    send("GET", "/livez", "", Map.of("X-" + CANARY, CANARY, "Request-Id", CANARY));
    send("PUT", "/v1/cases/c", "{\"" + CANARY + "\":1}", Map.of());
    send("PUT", "/v1/cases/c", "{\"" + CANARY + "\":", Map.of("Content-Digest", CANARY));
    RawExchange.with(
        service.url().getPort(),
        CANARY + " / HTTP/1.1\r\nHost: " + CANARY + "\r\nConnection: close\r\n\r\n");
    RawExchange.with(
        service.url().getPort(),
        "GET /%ff" + CANARY + " HTTP/1.1\r\nHost: a\r\nHost: " + CANARY + "\r\n\r\n");
    assertThat(sent).isGreaterThan(500);
  }

  @Test
  void b_log_isJsonWithTheFieldsOnTheListAndWithoutTheCanary() throws Exception {
    awaitLines();
    String log = service.output();
    assertThat(log).doesNotContainIgnoringCase(CANARY);
    List<String> lines = log.lines().filter(line -> line.startsWith("{")).toList();
    assertThat(lines).hasSizeGreaterThan(sent);
    for (String line : lines) {
      JsonNode json = JsonMapper.shared().readTree(line);
      assertThat(json.propertyNames())
          .isSubsetOf(
              "time",
              "level",
              "logger",
              "message",
              "method",
              "route",
              "status",
              "durationMs",
              "requestId",
              "traceId",
              "clientId",
              "resourceId",
              "faults",
              "failure");
    }
    assertThat(lines).noneMatch(line -> line.contains("\"level\":\"ERROR\""));
    assertThat(lines)
        .anyMatch(
            line -> line.contains("\"route\":\"/v1/cases/{caseId}/batteries\",\"status\":201"))
        .anyMatch(line -> line.contains("\"resourceId\":\""))
        .anyMatch(line -> line.contains("\"faults\":\"invalid-document "));
    // Beside the log only the greeting is written.
    assertThat(log.lines().filter(line -> !line.startsWith("{"))).hasSize(2);
  }

  @Test
  void c_metrics_haveNoLabelOfIt() throws Exception {
    assertThat(body("/metrics"))
        .doesNotContainIgnoringCase(CANARY)
        .contains("route=\"/v1/cases/{caseId}\"")
        .doesNotContain("clinic=", "client=");
  }

  @Test
  void d_answersToOthers_doNotHoldIt() throws Exception {
    for (String path : List.of("/v1/decisions/nope", "/v1/cases/other", "/v1/schemas", "/nope")) {
      assertThat(body(path)).doesNotContainIgnoringCase(CANARY);
    }
  }

  @Test
  void e_filesBesideTheDatabase_doNotHoldIt() throws Exception {
    try (Stream<Path> files = Files.list(folder.resolve("data"))) {
      for (Path file : files.filter(f -> !f.toString().endsWith(".mv.db")).toList()) {
        assertThat(Files.readString(file, StandardCharsets.ISO_8859_1))
            .as(file.toString())
            .doesNotContainIgnoringCase(CANARY);
      }
    }
  }

  private static List<Path> examples() throws IOException {
    try (Stream<Path> files = Files.walk(Repository.path("schemas/examples/valid"))) {
      return files.filter(file -> file.toString().endsWith(".json")).sorted().toList();
    }
  }

  private static List<JsonNode> paths() {
    List<JsonNode> paths = new ArrayList<>();
    Repository.openApi()
        .path("paths")
        .propertyNames()
        .forEach(p -> paths.add(StringNode.valueOf(p)));
    return paths;
  }

  /** The document with the canary in one string, for some of them, and then in all at once. */
  private static List<String> withCanary(String text) {
    List<String> all = new ArrayList<>();
    int strings = spoil(JsonMapper.shared().readTree(text), -1, 0);
    for (int i = 0; i < strings; i += 1 + strings / 8) {
      JsonNode one = JsonMapper.shared().readTree(text);
      spoil(one, i, 0);
      all.add(one.toString());
    }
    all.add(text.replaceAll("(: *)\"[^\"]*\"", "$1\"" + CANARY + "\""));
    return all;
  }

  /** Puts the canary into the string of this number; answers how many there are. */
  private static int spoil(JsonNode node, int number, int before) {
    int seen = before;
    for (String name : List.copyOf(node.propertyNames())) {
      if (node.path(name).isString()) {
        if (seen == number) {
          ((ObjectNode) node).put(name, CANARY);
        }
        seen++;
      } else {
        seen = spoil(node.path(name), number, seen);
      }
    }
    for (JsonNode item : node.isArray() ? node : List.<JsonNode>of()) {
      seen = spoil(item, number, seen);
    }
    return seen;
  }

  private static int send(String method, String path, String body, Map<String, String> headers)
      throws Exception {
    HttpRequest.Builder request = HttpRequest.newBuilder(service.url().resolve(path));
    if (method.equals("GET")) {
      request.GET();
    } else {
      request
          .method(method, HttpRequest.BodyPublishers.ofString(body))
          .header("Content-Type", "application/json");
    }
    headers.forEach(request::header);
    sent++;
    return HTTP.send(request.build(), HttpResponse.BodyHandlers.discarding()).statusCode();
  }

  private static String body(String path) throws Exception {
    HttpRequest request = HttpRequest.newBuilder(service.url().resolve(path)).build();
    return HTTP.send(request, HttpResponse.BodyHandlers.ofString()).body();
  }

  /** A line is written after its answer is sent, so the last may come a little later. */
  private static void awaitLines() throws Exception {
    for (int i = 0; i < 100 && service.output().lines().count() < sent + 2; i++) {
      Thread.sleep(20);
    }
  }
}
