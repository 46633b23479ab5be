package evenside.api.browser;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * Headless Chromium with one page. Without a browser on the machine a test that asks for it is
 * skipped, unless EVENSIDE_ALL_TESTS=true asks for all.
 */
public final class Browser implements AutoCloseable {
  private static final Duration PATIENCE = Duration.ofSeconds(90);
  private static final int LONGEST_PICTURE = 8000;
  private static final List<String> NAMES = List.of("chromium", "chromium-browser");

  private final Process process;
  private final Path profile;
  private final DevTools tools;

  private Browser(Process process, Path profile, DevTools tools) {
    this.process = process;
    this.profile = profile;
    this.tools = tools;
  }

  /** Starts it, or skips the test. */
  public static Browser start() throws Exception {
    Optional<String> command = NAMES.stream().filter(Browser::installed).findFirst();
    boolean wanted = "true".equals(System.getenv("EVENSIDE_ALL_TESTS"));
    if (command.isEmpty()) {
      assertThat(wanted).as("EVENSIDE_ALL_TESTS needs chromium").isFalse();
    }
    assumeTrue(command.isPresent(), "no chromium on this machine");
    Path profile = Files.createTempDirectory("evenside-browser");
    Process process =
        new ProcessBuilder(
                command.get(),
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--disable-quic",
                "--no-first-run",
                "--disable-background-networking",
                "--disable-component-update",
                "--disable-sync",
                "--hide-scrollbars",
                "--remote-debugging-port=0",
                "--user-data-dir=" + profile,
                "about:blank")
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .start();
    return new Browser(process, profile, DevTools.connect(page(profile)));
  }

  private static boolean installed(String command) {
    return Stream.of(System.getenv("PATH").split(java.io.File.pathSeparator))
        .anyMatch(folder -> Files.isExecutable(Path.of(folder, command)));
  }

  /** Where its one page is to be spoken to. */
  private static URI page(Path profile) throws Exception {
    Path file = profile.resolve("DevToolsActivePort");
    Instant end = Instant.now().plus(PATIENCE);
    while (!Files.exists(file) || Files.readAllLines(file).size() < 2) {
      assertThat(Instant.now()).as("the browser starts").isBefore(end);
      Thread.sleep(50);
    }
    String port = Files.readAllLines(file).get(0);
    URI list = URI.create("http://127.0.0.1:" + port + "/json/list");
    String json =
        HttpClient.newHttpClient()
            .send(HttpRequest.newBuilder(list).build(), BodyHandlers.ofString())
            .body();
    for (JsonNode target : JsonMapper.shared().readTree(json)) {
      if (target.path("type").asString().equals("page")) {
        return URI.create(target.path("webSocketDebuggerUrl").asString());
      }
    }
    throw new AssertionError("the browser has no page: " + json);
  }

  /** Makes the window this wide, and opens a page in it. */
  public void open(String url, int width) throws Exception {
    ObjectNode size = DevTools.object().put("width", width).put("height", 900);
    tools.call(
        "Emulation.setDeviceMetricsOverride",
        size.put("deviceScaleFactor", 1).put("mobile", false));
    tools.call("Page.navigate", DevTools.object().put("url", url));
    Instant end = Instant.now().plus(PATIENCE);
    String ready = "document.readyState === 'complete' && location.href === '" + url + "'";
    while (!evaluate(ready).asBoolean(false)) {
      assertThat(Instant.now()).as("the page loads: " + url).isBefore(end);
      Thread.sleep(20);
    }
  }

  /** Shows the open page as if on paper or on a screen. */
  public void media(String media) throws Exception {
    tools.call("Emulation.setEmulatedMedia", DevTools.object().put("media", media));
  }

  /** The value of an expression in the open page; a promise is waited for. */
  public JsonNode evaluate(String expression) throws Exception {
    ObjectNode asked =
        DevTools.object()
            .put("expression", expression)
            .put("returnByValue", true)
            .put("awaitPromise", true);
    JsonNode answer = tools.call("Runtime.evaluate", asked);
    assertThat(answer.has("exceptionDetails")).as(answer.toString()).isFalse();
    return answer.path("result").path("value");
  }

  /** Presses the tabulator key. */
  public void tab() throws Exception {
    for (String type : List.of("keyDown", "keyUp")) {
      tools.call(
          "Input.dispatchKeyEvent",
          DevTools.object()
              .put("type", type)
              .put("key", "Tab")
              .put("code", "Tab")
              .put("windowsVirtualKeyCode", 9));
    }
  }

  /** What the general accessibility checker axe-core finds wrong with the open page. */
  public JsonNode accessibilityFaults() throws Exception {
    evaluate(axe() + "; true");
    return evaluate(
        "axe.run(document, {resultTypes: ['violations']}).then(r => r.violations.map("
            + "v => v.id + ': ' + v.help + ' ' + v.nodes.map(n => n.html).slice(0, 2).join(' ')))");
  }

  /** The open page as its print would be filed. */
  public byte[] print() throws Exception {
    JsonNode answer =
        tools.call(
            "Page.printToPDF",
            DevTools.object().put("printBackground", true).put("preferCSSPageSize", true));
    return Base64.getDecoder().decode(answer.path("data").asString());
  }

  /** A picture of the open page, to be looked at; a very long page is cut off. */
  public byte[] picture() throws Exception {
    ObjectNode asked = DevTools.object().put("captureBeyondViewport", true);
    asked
        .putObject("clip")
        .put("x", 0)
        .put("y", 0)
        .put("width", evaluate("innerWidth").asInt())
        .put(
            "height",
            Math.min(LONGEST_PICTURE, evaluate("document.documentElement.scrollHeight").asInt()))
        .put("scale", 1);
    JsonNode answer = tools.call("Page.captureScreenshot", asked);
    return Base64.getDecoder().decode(answer.path("data").asString());
  }

  private static String axe() throws IOException {
    try (InputStream file = Browser.class.getResourceAsStream("/axe.min.js")) {
      return new String(file.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  @Override
  public void close() {
    tools.close();
    List<ProcessHandle> parts = process.descendants().toList();
    parts.forEach(ProcessHandle::destroy);
    process.destroy();
    process.onExit().join();
    parts.forEach(part -> part.onExit().completeOnTimeout(part, 5, TimeUnit.SECONDS).join());
    try (Stream<Path> files = Files.walk(profile)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(file);
      }
    } catch (IOException | UncheckedIOException e) {
      // A part of the browser may still be writing, or taking its files away; the folder is
      // temporary.
      profile.toFile().deleteOnExit();
    }
  }
}
