package evenside.api;

import io.javalin.Javalin;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;

/**
 * Measures the runnable jar from the start of its process until {@code /readyz} answers 200: {@code
 * mvn -Pbench -Dquick test-compile exec:exec@start}, after {@code mvn package}.
 *
 * <p>Two yardsticks take turns with it, so that whatever else the machine does meets all of them: a
 * Java that does nothing, and a server of the same library with one route. Only ratios to these
 * mean anything on a busy machine. Each start is on a new record, which has its tables made, and
 * then on one that is there. Arguments: the jar, rounds, and options for Java.
 */
final class StartTime {
  private static final Duration LONGEST = Duration.ofMinutes(1);

  private final Path jar;
  private final List<String> options;
  private final Map<String, List<Start>> starts = new LinkedHashMap<>();

  private StartTime(Path jar, List<String> options) {
    this.jar = jar;
    this.options = options;
  }

  /**
   * One start.
   *
   * @param wall milliseconds until it was ready
   * @param cpu milliseconds of processor time it used until then
   * @param resident MiB it held then
   */
  private record Start(double wall, double cpu, double resident) {}

  public static void main(String[] args) throws IOException, InterruptedException {
    StartTime times = new StartTime(Path.of(args[0]), List.of(args).subList(2, args.length));
    for (int round = 0; round < Integer.parseInt(args[1]); round++) {
      times.round();
    }
    times.print();
  }

  private void round() throws IOException, InterruptedException {
    String here = System.getProperty("java.class.path");
    measure("Java that does nothing", List.of("-cp", here, Nothing.class.getName()));
    measure("server with one route", List.of("-cp", here, OneRoute.class.getName()));
    Path folder = Files.createTempDirectory("evenside-start");
    try {
      List<String> serve =
          List.of("-jar", jar.toString(), "serve", "--data", folder.resolve("record").toString());
      measure("Evenside, new record", serve);
      measure("Evenside, its record is there", serve);
    } finally {
      Place.delete(folder);
    }
  }

  private void measure(String name, List<String> program) throws IOException, InterruptedException {
    int port = freePort();
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(options);
    command.addAll(program);
    ProcessBuilder builder =
        new ProcessBuilder(command)
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .redirectError(ProcessBuilder.Redirect.DISCARD);
    builder.environment().put("EVENSIDE_PORT", String.valueOf(port));
    long start = System.nanoTime();
    Process process = builder.start();
    while (process.isAlive() && !ready(port)) {
      if (System.nanoTime() - start > LONGEST.toNanos()) {
        process.destroy();
        throw new IOException(name + " was not ready within " + LONGEST);
      }
      Thread.sleep(2);
    }
    double wall = (System.nanoTime() - start) / 1e6;
    starts.computeIfAbsent(name, any -> new ArrayList<>()).add(seen(process, wall));
    process.destroy();
    process.waitFor();
  }

  /** A process that has ended by itself shows no processor time any more. */
  private static Start seen(Process process, double wall) throws IOException {
    double cpu =
        process.info().totalCpuDuration().map(Duration::toMillis).orElse(-1L).doubleValue();
    return new Start(wall, cpu, Resident.mebibytes(process));
  }

  private static boolean ready(int port) {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
      OutputStream out = socket.getOutputStream();
      String request = "GET /readyz HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n";
      out.write(request.getBytes(StandardCharsets.US_ASCII));
      InputStream in = socket.getInputStream();
      String status = new String(in.readNBytes(12), StandardCharsets.US_ASCII);
      return status.equals("HTTP/1.1 200");
    } catch (IOException notYet) {
      return false;
    }
  }

  private static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return socket.getLocalPort();
    }
  }

  private void print() {
    System.out.printf(
        Locale.ROOT,
        "Java %s, %d processors, options %s, medians of %d%n%n",
        System.getProperty("java.version"),
        Runtime.getRuntime().availableProcessors(),
        options,
        starts.values().iterator().next().size());
    System.out.println(
        "| start | ready ms (fastest) | of the server with one route | CPU ms | MiB |");
    System.out.println("|---|---|---|---|---|");
    double yardstick = median(starts.get("server with one route"), Start::wall);
    starts.forEach(
        (name, all) ->
            System.out.printf(
                Locale.ROOT,
                "| %s | %.0f (%.0f) | %.2f | %s | %s |%n",
                name,
                median(all, Start::wall),
                all.stream().mapToDouble(Start::wall).min().orElseThrow(),
                median(all, Start::wall) / yardstick,
                shown(median(all, Start::cpu)),
                shown(median(all, Start::resident))));
  }

  private static String shown(double figure) {
    return figure < 0 ? "–" : String.format(Locale.ROOT, "%.0f", figure);
  }

  private static double median(List<Start> all, Function<Start, Double> figure) {
    double[] sorted = all.stream().mapToDouble(figure::apply).sorted().toArray();
    return sorted[sorted.length / 2];
  }

  /** The yardstick of the JVM. */
  static final class Nothing {
    private Nothing() {}

    public static void main(String[] args) {}
  }

  /** The yardstick of the server: it answers, and does nothing else. */
  static final class OneRoute {
    private OneRoute() {}

    public static void main(String[] args) {
      Javalin.create(
              config -> {
                config.startup.showJavalinBanner = false;
                config.routes.get("/readyz", context -> context.result("ready"));
              })
          .start("127.0.0.1", Integer.parseInt(System.getenv("EVENSIDE_PORT")));
    }
  }
}
