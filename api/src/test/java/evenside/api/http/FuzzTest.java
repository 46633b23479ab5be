package evenside.api.http;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.Examples;
import evenside.api.LiveService;
import evenside.api.RawExchange;
import evenside.api.openapi.OpenApiFilter;
import evenside.api.openapi.Repository;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.net.SocketException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Requests by chance over every operation of {@code openapi.yaml}: odd paths, queries and headers,
 * and the published examples spoilt. Whatever comes, the answer is never 5xx, and every refusal is
 * a problem document as published. The seed is in the name of each test and gives the same requests
 * again.
 *
 * <p>More of them: {@code mvn -q -pl api -am test -Dtest=FuzzTest -Devenside.fuzz.seeds=2000
 * -Dsurefire.failIfNoSpecifiedTests=false} (forty requests a seed).
 */
class FuzzTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  private static final int REQUESTS = 40;
  private static final int LARGE = 64 * 1024;
  private static final int LONGEST_LIST = 100;
  private static final Map<Integer, Integer> STATUSES = new ConcurrentHashMap<>();

  /** A member with a day, or with a day and a time. */
  private static final Pattern TIME =
      Pattern.compile(
          "\"(?<name>\\w+)\"\\s*:\\s*\\[?\\s*\"(?<time>[0-9]{4}-[0-9]{2}-[0-9]{2}(?<clock>T[^\"]*)?)\"");

  private static final List<Operation> OPERATIONS = new ArrayList<>();
  private static final List<String> EXAMPLES = new ArrayList<>();
  private static final List<String> IDS = new ArrayList<>();
  private static String decision = "";

  /** One operation of the description: its method, its path template, its query parameters. */
  private record Operation(String method, String path, List<String> query, String example) {}

  @BeforeAll
  static void readDescriptionAndExamples() throws IOException {
    try (Stream<Path> files = Files.walk(Repository.path("schemas/examples/valid"))) {
      for (Path file : files.filter(f -> f.toString().endsWith(".json")).sorted().toList()) {
        EXAMPLES.add(Files.readString(file));
      }
    }
    JsonNode api = Repository.openApi();
    api.path("paths")
        .properties()
        .forEach(
            path ->
                path.getValue()
                    .properties()
                    .forEach(
                        method ->
                            OPERATIONS.add(
                                operation(
                                    api, path.getKey(), method.getKey(), method.getValue()))));
    IDS.addAll(List.of("c", "1", "start-running", "delaware-oslo", "2020.1", "battery", "case"));
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/c").then().statusCode(201);
    keep(SERVICE.record(Examples.battery()).post("/v1/cases/c/batteries").header("Location"));
    keep(
        SERVICE
            .record(Examples.decisionRequest())
            .post("/v1/cases/c/decisions")
            .header("Location"));
    decision = IDS.get(IDS.size() - 1);
    keep(SERVICE.record(Examples.session()).post("/v1/cases/c/sessions").header("Location"));
  }

  private static Operation operation(JsonNode api, String path, String method, JsonNode operation) {
    List<String> query = new ArrayList<>();
    for (JsonNode parameter : operation.path("parameters")) {
      String reference = parameter.path("$ref").asString("");
      JsonNode resolved = reference.isEmpty() ? parameter : api.at(reference.substring(1));
      if (resolved.path("in").asString().equals("query")) {
        query.add(resolved.path("name").asString());
      }
    }
    String schema =
        operation
            .at("/requestBody/content/application~1json/schema/$ref")
            .asString("")
            .replaceFirst(".*/", "")
            .replaceAll("(?<=[a-z])([A-Z])", "-$1")
            .toLowerCase(Locale.ROOT);
    return new Operation(method.toUpperCase(Locale.ROOT), path, List.copyOf(query), schema);
  }

  private static void keep(String location) {
    IDS.add(location.substring(location.lastIndexOf('/') + 1));
  }

  static LongStream seeds() {
    return LongStream.rangeClosed(1, Long.getLong("evenside.fuzz.seeds", 40));
  }

  @AfterAll
  static void everyKindOfAnswer_wasMet_andTheServiceGoesOn() {
    assertThat(STATUSES.keySet()).contains(200, 400, 404, 406, 415, 422);
    SERVICE.http().get("/readyz").then().statusCode(200);
    System.out.println("fuzz: requests by status " + STATUSES);
  }

  @ParameterizedTest(name = "seed {0}")
  @MethodSource("seeds")
  void request_byChance_isAnsweredOrRefusedProperly(long seed) throws IOException {
    RandomGenerator random = RandomGeneratorFactory.of("L64X128MixRandom").create(seed);
    for (int i = 0; i < REQUESTS; i++) {
      byte[] request = request(random);
      byte[] answer = exchange(request);
      String described = "seed " + seed + ", request " + i + ": " + shown(request);
      if (answer.length > 0) {
        check(answer, new String(request, 0, 4, StandardCharsets.ISO_8859_1), described);
      }
    }
  }

  /** Times that Java reads and nothing can be computed with, at each place that takes a time. */
  @Test
  void timeFarFromAnyCalendar_isRefusedProperly() throws IOException {
    for (Operation operation : OPERATIONS) {
      Path folder = Repository.path("schemas/examples/valid").resolve(operation.example());
      if (operation.example().isEmpty() || !Files.isDirectory(folder)) {
        continue;
      }
      Set<String> places = new HashSet<>();
      try (Stream<Path> files = Files.list(folder)) {
        for (Path file : files.sorted().toList()) {
          Matcher time = TIME.matcher(Files.readString(file));
          while (time.find()) {
            if (places.add(time.group("name"))) {
              farTimes(operation, Files.readString(file), time);
            }
          }
        }
      }
    }
  }

  private static void farTimes(Operation operation, String example, Matcher time)
      throws IOException {
    for (String year : List.of("+999999999", "-999999999", "0000", "9999")) {
      for (String day : List.of("-01-01", "-12-31")) {
        String far = year + day + (time.group("clock") == null ? "" : time.group("clock"));
        String body =
            example.substring(0, time.start("time")) + far + example.substring(time.end("time"));
        String path =
            operation
                .path()
                .replace("{caseId}", operation.method().equals("PUT") ? "far" : "c")
                .replace("{decisionId}", decision)
                .replaceAll("\\{[^}]*}", "1");
        String head =
            "%s %s HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\nContent-Type: application/json\r\nIdempotency-Key: %s\r\nContent-Length: %d\r\n\r\n"
                .formatted(
                    operation.method(),
                    path,
                    UUID.randomUUID(),
                    body.getBytes(StandardCharsets.UTF_8).length);
        byte[] request = (head + body).getBytes(StandardCharsets.UTF_8);
        check(exchange(request), operation.method(), shown(request));
      }
    }
  }

  private static byte[] request(RandomGenerator random) throws IOException {
    Operation operation = pick(random, OPERATIONS);
    boolean reading = operation.method().equals("GET");
    String method =
        random.nextInt(20) > 0
            ? operation.method()
            : pick(random, List.of("HEAD", "OPTIONS", "DELETE", "PATCH", "GET", "POST"));
    byte[] body = reading ? new byte[0] : body(random, operation);
    StringBuilder head = new StringBuilder(method).append(' ').append(target(random, operation));
    head.append(" HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n");
    boolean known = random.nextInt(20) > 0;
    if (!reading) {
      head.append("Content-Type: application/json").append(known ? "" : "x").append("\r\n");
      head.append("Content-Length: ").append(body.length).append("\r\n");
      head.append("Idempotency-Key: k").append(random.nextInt(50)).append("\r\n");
    }
    for (int i = random.nextInt(3); i > 0; i--) {
      head.append(pick(random, HostileText.HEADERS)).append(": ");
      head.append(pick(random, HostileText.HEADER_VALUES)).append("\r\n");
    }
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    bytes.write(head.append("\r\n").toString().getBytes(StandardCharsets.ISO_8859_1));
    bytes.write(body);
    return bytes.toByteArray();
  }

  private static byte[] body(RandomGenerator random, Operation operation) throws IOException {
    if (random.nextInt(10) == 0) {
      return pick(random, HostileText.BODIES).getBytes(StandardCharsets.UTF_8);
    }
    Path folder = Repository.path("schemas/examples/valid").resolve(operation.example());
    String example = pick(random, EXAMPLES);
    if (random.nextInt(4) > 0 && !operation.example().isEmpty() && Files.isDirectory(folder)) {
      try (Stream<Path> files = Files.list(folder)) {
        example = Files.readString(pick(random, files.sorted().toList()));
      }
    }
    return new Mutations(random).of(example);
  }

  private static String target(RandomGenerator random, Operation operation) {
    StringBuilder target = new StringBuilder();
    for (String part : operation.path().split("(?=\\{)|(?<=})")) {
      boolean known = random.nextInt(3) > 0;
      target.append(
          part.startsWith("{") ? pick(random, known ? IDS : HostileText.PATH_PARTS) : part);
    }
    int parameters = operation.method().equals("GET") ? random.nextInt(3) : random.nextInt(9) - 7;
    for (int i = parameters; i > 0; i--) {
      boolean known = random.nextInt(4) > 0 && !operation.query().isEmpty();
      target.append(target.indexOf("?") < 0 ? '?' : '&');
      target.append(
          known ? pick(random, operation.query()) : pick(random, HostileText.QUERY_NAMES));
      target.append('=').append(pick(random, HostileText.QUERY_VALUES));
    }
    return target.toString();
  }

  private static void check(byte[] answer, String method, String described) {
    String text = new String(answer, StandardCharsets.UTF_8);
    assertThat(text).as(described).startsWith("HTTP/1.1 ");
    RawExchange exchange = new RawExchange(text);
    STATUSES.merge(exchange.status(), 1, Integer::sum);
    assertThat(exchange.status()).as(described).isBetween(200, 499);
    if (exchange.status() < 400 || method.equals("HEAD")) {
      return;
    }
    assertThat(exchange.header("Content-Type")).as(described).isEqualTo("application/problem+json");
    if (exchange.header("Content-Encoding").isEmpty()) {
      JsonNode problem = JsonMapper.shared().readTree(exchange.body());
      assertThat(OpenApiFilter.problemErrors(problem)).as(described).isEmpty();
      assertThat(problem.path("status").asInt()).as(described).isEqualTo(exchange.status());
      assertThat(problem.path("faults").size()).as(described).isLessThanOrEqualTo(LONGEST_LIST);
      assertThat(problem.path("instance").asString())
          .as(described)
          .isEqualTo("urn:uuid:" + exchange.header("Request-Id"));
    }
  }

  private static byte[] exchange(byte[] request) throws IOException {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), SERVICE.port())) {
      socket.setSoTimeout(20_000);
      socket.getOutputStream().write(request);
      socket.getOutputStream().flush();
      return socket.getInputStream().readAllBytes();
    } catch (SocketException refusedEarly) {
      // Refused by its head while its large body was on the way.
      assertThat(request.length).isGreaterThan(LARGE);
      return new byte[0];
    }
  }

  private static String shown(byte[] request) {
    String text = new String(request, StandardCharsets.ISO_8859_1);
    return text.length() < 1500 ? text : text.substring(0, 1500) + "…";
  }

  private static <T> T pick(RandomGenerator random, List<T> from) {
    return from.get(random.nextInt(from.size()));
  }
}
