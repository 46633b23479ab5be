package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.api.http.Route;
import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import evenside.api.problem.Problems;
import evenside.readiness.ReadinessService;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.JsonNodeFactory;

/** Health and documentation. */
public final class OperationsResource {
  /** Media type of the API description (RFC 9512). */
  public static final String YAML = "application/yaml";

  private final ReadinessService service;
  private final byte[] openApi;

  /** Over the service. */
  public OperationsResource(ReadinessService service) {
    this.service = service;
    this.openApi = openApi();
  }

  /** Whether the process runs. */
  public Reply live(Call call) {
    return status("alive");
  }

  /** Whether requests can be served. */
  public Reply ready(Call call) {
    if (!service.ready()) {
      throw Problem.of(ProblemType.UNAVAILABLE, reason())
          .withHeader("Retry-After", "1")
          .asException();
    }
    return Reply.of(
            JsonNodeFactory.instance
                .objectNode()
                .put("status", "ready")
                .put("ledger", service.ledger().on() ? "on" : "off"))
        .cached(Cache.NONE);
  }

  private String reason() {
    return service.ledger().trouble().isEmpty()
        ? "The store does not answer."
        : "A ledger takes no entries; the log says why.";
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
