package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.api.metrics.Metrics;
import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import evenside.api.problem.Problems;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.JsonNodeFactory;

/** Health and documentation. */
public final class OperationsResource {
  /** Media type of a page. */
  public static final String HTML = "text/html";

  /** Media type of the API description (RFC 9512). */
  public static final String YAML = "application/yaml";

  private final BooleanSupplier ledgerOn;
  private final List<Check> checks;
  private final Supplier<String> metrics;
  private final byte[] openApi;

  /**
   * Over what is asked.
   *
   * @param ledgerOn whether what is recorded can be proved later
   * @param checks what it takes to be ready
   * @param metrics the numbers of the service, as text for Prometheus
   */
  public OperationsResource(
      BooleanSupplier ledgerOn, List<Check> checks, Supplier<String> metrics) {
    this.ledgerOn = ledgerOn;
    this.checks = List.copyOf(checks);
    this.metrics = metrics;
    this.openApi = openApi();
  }

  /** Whether the process runs. */
  public Reply live(Call call) {
    return status("alive");
  }

  /** Whether requests can be served; if not, every reason. */
  public Reply ready(Call call) {
    List<String> faults = checks.stream().filter(Check::fails).map(Check::fault).toList();
    if (!faults.isEmpty()) {
      throw Problem.of(ProblemType.UNAVAILABLE, String.join(" ", faults))
          .withHeader("Retry-After", "1")
          .asException();
    }
    return Reply.of(
            JsonNodeFactory.instance
                .objectNode()
                .put("status", "ready")
                .put("ledger", ledgerOn.getAsBoolean() ? "on" : "off"))
        .cached(Cache.NONE);
  }

  /** The numbers of the service. */
  public Reply metrics(Call call) {
    byte[] text = metrics.get().getBytes(StandardCharsets.UTF_8);
    return new Reply(200, Metrics.MEDIA_TYPE, text, Map.of()).cached(Cache.NONE);
  }

  /** The API description. */
  public Reply openApi(Call call) {
    return Reply.of(openApi, YAML).cached(Cache.PUBLIC);
  }

  /** What a kind of problem means. */
  public Reply problem(Call call) {
    ProblemType type =
        ProblemType.of(call.id("slug")).orElseThrow(Problems.NOTHING_HERE::asException);
    byte[] body =
        call.mediaType().equals(HTML)
            ? page(type).getBytes(StandardCharsets.UTF_8)
            : JsonMapper.shared().writeValueAsBytes(type.toJson());
    String charset = call.mediaType().equals(HTML) ? ";charset=utf-8" : "";
    return Reply.of(body, call.mediaType() + charset).cached(Cache.PUBLIC).with("Vary", "Accept");
  }

  private static Reply status(String status) {
    return Reply.of(JsonNodeFactory.instance.objectNode().put("status", status)).cached(Cache.NONE);
  }

  private static String page(ProblemType type) {
    return """
        <!doctype html>
        <html lang="en">
        <meta charset="utf-8">
        <title>%s</title>
        <h1>%s</h1>
        <p>%s</p>
        <h2>What to do</h2>
        <p>%s</p>
        <p>Type <code>%s</code>, status %d.</p>
        </html>
        """
        .formatted(
            escape(type.title()),
            escape(type.title()),
            escape(type.meaning()),
            escape(type.remedy()),
            type.uri(),
            type.status());
  }

  private static String escape(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }

  private static byte[] openApi() {
    String name = "/evenside/api/openapi.yaml";
    try (InputStream file = OperationsResource.class.getResourceAsStream(name)) {
      if (file == null) {
        throw new IllegalStateException("openapi.yaml is not in the jar");
      }
      return file.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
