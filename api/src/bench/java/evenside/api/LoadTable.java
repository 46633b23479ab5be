package evenside.api;

import evenside.api.LoadClient.Figures;
import evenside.api.LoadClient.Request;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.IntFunction;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * Measures the routes against their ceilings over HTTP, on both databases, and writes one table:
 * {@code mvn -Pbench -Dquick test-compile exec:exec@load}.
 *
 * <p>In each round every route gets its turn, so that whatever else the machine does meets all of
 * them; a figure is the median of the rounds, and only ratios inside one table mean anything. The
 * load generator, the service and the database share the machine. Arguments: the file to write,
 * rounds, milliseconds of one turn; then, for a closer look, the database, the number of
 * connections, the routes to measure with commas between, and options for the service's Java, such
 * as a profiler.
 */
final class LoadTable {
  private static final long WARM_UP_TURN_MS = 4_000;

  private static final int MOST_WARM_UP_TURNS = 15;

  private static final int CASES = 50;

  /** Each trains every second day, as often as this within the days before today. */
  private static final int TRAINING_CASES = 400;

  private static final int TRAININGS = 120;

  private final AtomicInteger trained = new AtomicInteger();
  private final StringBuilder out = new StringBuilder();
  private final int rounds;
  private final long turn;
  private List<Integer> connections = List.of(1, 8, 32);
  private Optional<Set<String>> only = Optional.empty();
  private List<String> options = List.of();

  private LoadTable(int rounds, long turn) {
    this.rounds = rounds;
    this.turn = turn;
  }

  public static void main(String[] args) throws IOException {
    LoadTable table = new LoadTable(Integer.parseInt(args[1]), Long.parseLong(args[2]));
    table.facts();
    if (args.length > 3) {
      table.connections = List.of(Integer.valueOf(args[4]));
      table.only = Optional.of(Set.of(args[5].split(",")));
      table.options = List.of(args).subList(6, args.length);
      table.measure(args[3]);
    } else {
      for (String database : List.of("h2", "postgresql")) {
        table.measure(database);
      }
    }
    Files.writeString(Path.of(args[0]), table.out.toString());
    System.out.println(table.out);
  }

  private void facts() throws IOException {
    line("# Routes against their ceilings");
    line("");
    line(
        "Java %s, %d processors shared by load generator, service and database, %s.",
        System.getProperty("java.version"), Runtime.getRuntime().availableProcessors(), load());
    line(
        "Medians of %d rounds of %.1f s each, the routes taking turns in every round.",
        rounds, turn / 1000.0);
    line("");
  }

  /** How busy the machine was besides: what disturbs a figure belongs to it. */
  private static String load() throws IOException {
    Path file = Path.of("/proc/loadavg");
    return Files.isReadable(file)
        ? "load average at the start " + Files.readString(file).split(" ")[0]
        : "load average not known";
  }

  private void measure(String database) throws IOException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    // As DEVELOPERS.md advises an operator; the buffers are what the command line sets by itself.
    command.addAll(List.of("-XX:+UseSerialGC", "-Xmx112m", "-Xms32m"));
    command.addAll(List.of("-XX:+IgnoreUnrecognizedVMOptions", "-XX:TrimNativeHeapInterval=2000"));
    command.add("-Djdk.nio.maxCachedBufferSize=262144");
    command.addAll(options);
    command.addAll(List.of("-cp", System.getProperty("java.class.path")));
    command.addAll(List.of(LoadServer.class.getName(), database));
    Process server =
        new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.DISCARD).start();
    // Ends with the server; closing it earlier would wait for the thread that reads it.
    BufferedReader lines =
        new BufferedReader(new InputStreamReader(server.getInputStream(), StandardCharsets.UTF_8));
    try {
      LoadClient client = new LoadClient(port(lines));
      // What else the server prints must not stop it.
      Thread drain = new Thread(() -> lines.lines().forEach(line -> {}), "drain");
      drain.setDaemon(true);
      drain.start();
      Map<String, IntFunction<Request>> routes = routes(client);
      routes.keySet().removeIf(name -> only.isPresent() && !only.get().contains(name));
      routes.values().forEach(route -> warmUp(client, route));
      for (int count : connections) {
        table(database, count, rounds(client, count, routes));
      }
      line("Resident memory of the service after this: %s.", resident(server));
      line("");
    } finally {
      server.destroy();
    }
  }

  /** Calls a route until it gets no faster: under some, compiling goes on for most of a minute. */
  private static void warmUp(LoadClient client, IntFunction<Request> route) {
    double best = 0;
    int turnsWithoutGain = 0;
    for (int turn = 0; turn < MOST_WARM_UP_TURNS && turnsWithoutGain < 3; turn++) {
      double rate = client.run(8, WARM_UP_TURN_MS, route).perSecond();
      turnsWithoutGain = rate > 1.03 * best ? 0 : turnsWithoutGain + 1;
      best = Math.max(best, rate);
    }
  }

  private static int port(BufferedReader lines) throws IOException {
    for (String line = lines.readLine(); line != null; line = lines.readLine()) {
      if (line.startsWith("port ")) {
        return Integer.parseInt(line.substring(5));
      }
    }
    throw new IOException("the server did not start");
  }

  private Map<String, IntFunction<Request>> routes(LoadClient client) {
    String request = Examples.assessmentRequest();
    String battery = without(Examples.battery(), "recordId");
    String session = without(Examples.session(), "recordId");
    String decision =
        Examples.changed(
            "valid/decision-request/by-milestone",
            json -> json.put("milestone", "return-to-competition"));
    List<String> decisions = new ArrayList<>();
    for (int i = 0; i < CASES; i++) {
      client.once(new Request("PUT", "/v1/cases/test-" + i, Examples.kneeCase()));
      String path = "/v1/cases/case-" + i;
      client.once(new Request("PUT", path, Examples.kneeCase()));
      client.once(new Request("POST", path + "/batteries", battery));
      String made = client.once(new Request("POST", path + "/decisions", decision));
      JsonNode json = JsonMapper.shared().readTree(made);
      decisions.add(json.path("decisionId").asString());
    }
    for (int i = 0; i < TRAINING_CASES; i++) {
      client.once(new Request("PUT", "/v1/cases/train-" + i, Examples.kneeCase()));
    }
    Map<String, IntFunction<Request>> routes = new LinkedHashMap<>();
    routes.put("echo of the parsed tree", n -> post("/bench/echo", request));
    routes.put("parse + general validator", n -> post("/bench/validator", request));
    routes.put("the same + assessment at hand", n -> post("/bench/answer", request));
    routes.put("parse + schema", n -> post("/bench/schema", request));
    routes.put("parse + schema + durable insert", n -> post("/bench/insert", request));
    routes.put("check of a battery", n -> post("/v1/checks/battery", battery));
    routes.put("assessment", n -> post("/v1/assessments", request));
    routes.put("battery", n -> post("/v1/cases/test-" + n % CASES + "/batteries", at(n, battery)));
    routes.put(
        "session",
        any -> {
          int n = trained.getAndIncrement();
          String path = "/v1/cases/train-" + n % TRAINING_CASES + "/sessions";
          return post(path, on(n / TRAINING_CASES % TRAININGS, at(n, session)));
        });
    routes.put("decision", n -> post("/v1/cases/case-" + n % CASES + "/decisions", decision));
    routes.put(
        "evidence with proof",
        n -> new Request("GET", "/v1/decisions/" + decisions.get(n % CASES) + "/evidence", ""));
    return routes;
  }

  /** The document at a time of its own: results of one time would all count together. */
  private static String at(int number, String document) {
    String time =
        "T%02d:%02d:%02d".formatted(6 + number / 3600 % 12, number / 60 % 60, number % 60);
    return document.replaceFirst("T[0-9:]{8}", time);
  }

  /** The training of a case with a number: with many on one day the advice would look at all. */
  private static String on(int training, String session) {
    LocalDate day = LocalDate.now(ZoneOffset.UTC).minusDays(2L * (TRAININGS - training));
    return session.replaceFirst("[0-9-]{10}T", day + "T");
  }

  private static Request post(String path, String body) {
    return new Request("POST", path, body);
  }

  private static String without(String text, String member) {
    ObjectNode json = (ObjectNode) JsonMapper.shared().readTree(text);
    json.remove(member);
    return json.toString();
  }

  private Map<String, List<Figures>> rounds(
      LoadClient client, int connections, Map<String, IntFunction<Request>> routes) {
    Map<String, List<Figures>> figures = new LinkedHashMap<>();
    for (int round = 0; round < rounds; round++) {
      routes.forEach(
          (name, route) ->
              figures
                  .computeIfAbsent(name, any -> new ArrayList<>())
                  .add(client.run(connections, turn, route)));
    }
    return figures;
  }

  private void table(String database, int connections, Map<String, List<Figures>> figures) {
    Map<String, Double> rates = new LinkedHashMap<>();
    figures.forEach((name, runs) -> rates.put(name, median(runs, "rate")));
    double echo = rates.getOrDefault("echo of the parsed tree", Double.NaN);
    double validator = rates.getOrDefault("parse + general validator", Double.NaN);
    double schema = rates.getOrDefault("parse + schema", Double.NaN);
    double insert = rates.getOrDefault("parse + schema + durable insert", Double.NaN);
    line("## %s, connections: %d", database, connections);
    line("");
    line(
        "| route | per second | of echo | of general validator | of schema | of insert | p50 ms | p99 ms |");
    line("|---|---|---|---|---|---|---|---|");
    rates.forEach(
        (name, rate) ->
            line(
                "| %s | %.0f | %.2f | %.2f | %.2f | %.2f | %.2f | %.2f |",
                name,
                rate,
                rate / echo,
                rate / validator,
                rate / schema,
                rate / insert,
                median(figures.get(name), "p50"),
                median(figures.get(name), "p99")));
    line("");
  }

  private static double median(List<Figures> runs, String which) {
    double[] sorted =
        runs.stream()
            .mapToDouble(
                run ->
                    switch (which) {
                      case "p50" -> run.p50();
                      case "p99" -> run.p99();
                      default -> run.perSecond();
                    })
            .sorted()
            .toArray();
    return sorted[sorted.length / 2];
  }

  private static String resident(Process server) throws IOException {
    int mebibytes = Resident.mebibytes(server);
    return mebibytes < 0 ? "not known" : mebibytes + " MiB";
  }

  private void line(String format, Object... arguments) {
    out.append(arguments.length == 0 ? format : String.format(Locale.ROOT, format, arguments));
    out.append('\n');
  }
}
