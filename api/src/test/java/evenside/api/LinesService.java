package evenside.api;

import static java.nio.charset.StandardCharsets.UTF_8;

import evenside.api.access.Authentication;
import evenside.api.bulk.JobWorker;
import evenside.api.http.Cursors;
import evenside.ledger.Ledger;
import evenside.ledger.LedgerSettings;
import evenside.note.SigningKey;
import evenside.readiness.ReadinessService;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import io.javalin.Javalin;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** The service with its worker, on a clock that goes on from the day of the examples. */
public final class LinesService implements AutoCloseable {
  private static final HttpClient HTTP = HttpClient.newHttpClient();

  public final Store store;
  public final Ledger ledger;
  public final ReadinessService service;
  private final Optional<JobWorker> worker;
  private final Javalin app;

  public LinesService(Path folder, StoreSettings where, SigningKey key, boolean working) {
    Instant started = Instant.now();
    InstantSource clock = () -> LiveService.NOW.plus(Duration.between(started, Instant.now()));
    store = Store.open(where);
    ledger =
        Ledger.open(
            store, new LedgerSettings(folder, LedgerSettings.DEFAULT_NAME, List.of(key)), clock);
    service = ReadinessService.of(LiveService.CONTRACT, store, ledger, clock);
    app =
        Api.create(
            new Api.Dependencies(service, new Cursors(new byte[32]), Authentication.none("local")));
    app.start("127.0.0.1", 0);
    worker =
        working ? Optional.of(JobWorker.start(service, Duration.ofSeconds(1))) : Optional.empty();
  }

  /** A case, a battery, an entry of the training record and a decision on each of some knees. */
  public static List<ObjectNode> history(int from, int cases) {
    return IntStream.range(from, from + cases)
        .mapToObj(
            i ->
                List.of(
                    line("case", "knee-" + i, Examples.kneeCase()),
                    line(
                        "battery",
                        "knee-" + i,
                        Examples.changed(
                            "valid/battery/strength-and-hops",
                            json -> {
                              json.put("recordId", "battery-" + i);
                              json.put("operatedSide", "left");
                            })),
                    line("decision-request", "knee-" + i, Examples.decisionRequest())))
        .flatMap(List::stream)
        .collect(Collectors.toCollection(ArrayList::new));
  }

  public static ObjectNode line(String kind, String caseId, String body) {
    ObjectNode line = JsonNodeFactory.instance.objectNode();
    line.put("kind", kind).put("caseId", caseId);
    line.set("body", JsonMapper.shared().readTree(body));
    return line;
  }

  public static String ndjson(List<?> lines) {
    return lines.stream().map(line -> line + "\n").collect(Collectors.joining());
  }

  public static List<JsonNode> trees(String ndjson) {
    return ndjson.lines().map(line -> JsonMapper.shared().readTree(line)).toList();
  }

  public URI url() {
    return URI.create("http://127.0.0.1:" + app.port());
  }

  public HttpResponse<String> post(String body, String... headers)
      throws IOException, InterruptedException {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(url().resolve("/v1/bulk"))
            .header("Content-Type", "application/x-ndjson")
            .POST(BodyPublishers.ofByteArray(body.getBytes(UTF_8)));
    for (int i = 0; i < headers.length; i += 2) {
      request.header(headers[i], headers[i + 1]);
    }
    return HTTP.send(request.build(), BodyHandlers.ofString());
  }

  /** The answers to lines that fit into one request. */
  public List<JsonNode> record(List<?> lines) throws IOException, InterruptedException {
    HttpResponse<String> response = post(ndjson(lines));
    if (response.statusCode() != 200) {
      throw new AssertionError(response.statusCode() + " " + response.body());
    }
    return trees(response.body());
  }

  public HttpResponse<String> get(String path) throws IOException, InterruptedException {
    return HTTP.send(HttpRequest.newBuilder(url().resolve(path)).build(), BodyHandlers.ofString());
  }

  @Override
  public void close() {
    QuickStop.of(app);
    worker.ifPresent(JobWorker::close);
    ledger.close();
    store.close();
  }
}
