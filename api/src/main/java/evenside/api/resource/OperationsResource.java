package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.api.http.Route;
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
    byte[] body = JsonMapper.shared().writeValueAsBytes(type(call).toJson());
    return Reply.of(body, Route.JSON).cached(Cache.PUBLIC);
  }

  /** The same as a page. */
  public Reply problemPage(Call call) {
    return Html.reply("problem", type(call)).cached(Cache.PUBLIC);
  }

  private static ProblemType type(Call call) {
    return ProblemType.of(call.id("slug")).orElseThrow(Problems.NOTHING_HERE::asException);
  }

  private static Reply status(String status) {
    return Reply.of(JsonNodeFactory.instance.objectNode().put("status", status)).cached(Cache.NONE);
  }

  /** The bytes of {@code openapi.yaml}. */
  static byte[] openApi() {
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
