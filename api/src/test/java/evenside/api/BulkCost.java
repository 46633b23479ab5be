package evenside.api;

import evenside.note.SigningKey;
import evenside.store.database.StoreSettings;
import java.net.URI;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import tools.jackson.databind.JsonNode;

/**
 * What bulk saves: the same histories one request after the other, and as lines, in turns, on H2
 * and on PostgreSQL with fsync on. A program, not a test:
 *
 * <pre>mvn -Dquick -pl api -am test-compile exec:java -Dexec.mainClass=evenside.api.BulkCost \
 *     -Dexec.classpathScope=test -Dexec.args="80 5"</pre>
 *
 * Arguments: knees a round (three lines each), and rounds. On two processors the compiler of the
 * virtual machine takes one of them for the first minute, so both ways are warmed up that long.
 */
final class BulkCost {
  private static final Duration WARM_UP = Duration.ofSeconds(60);

  private BulkCost() {}

  public static void main(String[] args) throws Exception {
    int knees = args.length > 0 ? Integer.parseInt(args[0]) : 80;
    int rounds = args.length > 1 ? Integer.parseInt(args[1]) : 5;
    Path folder = Files.createTempDirectory("evenside-bulk");
    try {
      run("H2", folder, StoreSettings.inFolder(folder.resolve("h2")), knees, rounds);
      try (DatabaseServer server = new DatabaseServer(folder.resolve("pg"))) {
        run("PostgreSQL", folder, StoreSettings.at(server.url(), "", ""), knees, rounds);
      }
    } finally {
      Place.delete(folder);
    }
  }

  private static void run(String name, Path folder, StoreSettings where, int knees, int rounds)
      throws Exception {
    Path side = Files.createDirectory(folder.resolve(name));
    try (LinesService service = new LinesService(side, where, SigningKey.generate(), false)) {
      int next = 0;
      List<Double> ratios = new ArrayList<>();
      long warm = System.nanoTime() + WARM_UP.toNanos();
      while (ratios.size() < rounds) {
        double single = singly(service.url(), next, knees);
        double bulk = bulk(service.url(), next + knees, knees);
        next += 2 * knees;
        if (System.nanoTime() > warm) {
          ratios.add(bulk / single);
          System.out.printf(
              "%s: one by one %.0f/s, as lines %.0f/s, ratio %.1f%n",
              name, single, bulk, bulk / single);
        }
      }
      double[] sorted = ratios.stream().mapToDouble(r -> r).sorted().toArray();
      System.out.printf(
          "%s: median ratio %.1f of %s%n",
          name, sorted[sorted.length / 2], Arrays.toString(sorted));
    }
  }

  /** Records a second, each sent when the one before was answered. */
  private static double singly(URI service, int from, int knees) throws Exception {
    List<? extends JsonNode> lines = LinesService.history(from, knees);
    long start = System.nanoTime();
    for (JsonNode line : lines) {
      String path = "/v1/cases/" + line.path("caseId").asString();
      String body = line.path("body").toString();
      HttpResponse<String> reply =
          switch (line.path("kind").asString()) {
            case "case" -> Http.send(service, "PUT", path, "application/json", body);
            case "battery" -> post(service, path + "/batteries", body);
            default -> post(service, path + "/decisions", body);
          };
      demand(reply.statusCode() == 201, reply.body());
    }
    return lines.size() / seconds(start);
  }

  private static HttpResponse<String> post(URI service, String path, String body) throws Exception {
    String key = java.util.UUID.randomUUID().toString();
    return Http.send(service, "POST", path, "application/json", body, "Idempotency-Key", key);
  }

  private static double bulk(URI service, int from, int knees) throws Exception {
    List<?> lines = LinesService.history(from, knees);
    String body = LinesService.ndjson(lines);
    long start = System.nanoTime();
    HttpResponse<String> reply = Http.bulk(service, body);
    double seconds = seconds(start);
    demand(reply.body().lines().allMatch(line -> line.contains("\"status\":201")), reply.body());
    return lines.size() / seconds;
  }

  private static double seconds(long start) {
    return (System.nanoTime() - start) / 1e9;
  }

  private static void demand(boolean holds, String otherwise) {
    if (!holds) {
      throw new IllegalStateException(otherwise);
    }
  }
}
