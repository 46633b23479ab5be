package evenside.api.openapi;

import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.filter.Filter;
import io.restassured.filter.FilterContext;
import io.restassured.http.Header;
import io.restassured.response.Response;
import io.restassured.specification.FilterableRequestSpecification;
import io.restassured.specification.FilterableResponseSpecification;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.zip.GZIPInputStream;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Holds every exchange of a test to {@code openapi.yaml}: path and method are listed, the status is
 * documented, the media type is one of the documented ones, our headers are documented and have
 * their form, the body fits its schema, and so does the body of a request that was accepted.
 */
public final class OpenApiFilter implements Filter {
  private static final String PROBLEM = "application/problem+json";
  private static final OpenApi API = new OpenApi();
  private static final Set<String> OURS =
      Set.of(
          "etag",
          "repr-digest",
          "location",
          "link",
          "cache-control",
          "retry-after",
          "www-authenticate",
          "idempotency-replayed",
          "request-id",
          "evenside-ledger-index",
          "evenside-ledger-checkpoint");

  @Override
  public Response filter(
      FilterableRequestSpecification request,
      FilterableResponseSpecification response,
      FilterContext context) {
    Response answer = context.next(request, response);
    check(request, answer);
    return answer;
  }

  private static void check(FilterableRequestSpecification request, Response answer) {
    String method = request.getMethod();
    String path = URI.create(request.getURI()).getRawPath();
    String exchange = method + " " + path + " -> " + answer.statusCode();
    if (answer.statusCode() >= 400) {
      assertThat(mediaType(answer)).as(exchange).isEqualTo(PROBLEM);
      checkProblem(answer, exchange, method);
    }
    Optional<String> template = API.template(path);
    if (template.isEmpty()) {
      assertThat(answer.statusCode()).as(exchange).isIn(400, 403, 404, 414);
      return;
    }
    // HEAD answers as GET does, without the body; OPTIONS is the same for every path.
    String documented = method.equals("HEAD") ? "GET" : method;
    Optional<JsonNode> operation = API.operation(template.get(), documented);
    if (operation.isEmpty()) {
      assertThat(answer.statusCode()).as(exchange).isIn(method.equals("OPTIONS") ? 204 : 405, 403);
      return;
    }
    JsonNode expected = API.response(operation.get(), answer.statusCode(), exchange);
    checkHeaders(expected, answer, exchange);
    if (!method.equals("HEAD")) {
      checkBody(expected, answer, exchange);
    }
    if (answer.statusCode() < 300 && operation.get().has("requestBody")) {
      checkRequest(operation.get(), request, exchange);
    }
  }

  /** What is wrong with a problem document by its published schema. */
  public static java.util.List<?> problemErrors(JsonNode problem) {
    return API.errors("Problem", problem);
  }

  private static void checkProblem(Response answer, String exchange, String method) {
    if (method.equals("HEAD")) {
      return;
    }
    JsonNode problem = JsonMapper.shared().readTree(body(answer));
    assertThat(API.errors("Problem", problem)).as(exchange).isEmpty();
    assertThat(problem.path("status").asInt()).as(exchange).isEqualTo(answer.statusCode());
    assertThat(problem.path("instance").asString())
        .as(exchange)
        .isEqualTo("urn:uuid:" + answer.header("Request-Id"));
  }

  private static void checkHeaders(JsonNode expected, Response answer, String exchange) {
    Set<String> documented = new TreeSet<>(String.CASE_INSENSITIVE_ORDER);
    documented.addAll(expected.path("headers").propertyNames());
    for (Header header : answer.headers()) {
      String name = header.getName().toLowerCase(java.util.Locale.ROOT);
      boolean problem = answer.statusCode() >= 400;
      if (OURS.contains(name) && !(problem && name.equals("cache-control"))) {
        assertThat(documented).as("headers of " + exchange).contains(name);
        String form = API.headerPattern(expected, header.getName());
        assertThat(header.getValue()).as(exchange + " " + name).matches(form);
      }
    }
    assertThat(answer.header("Request-Id")).as(exchange).isNotNull();
    assertThat(answer.header("X-Content-Type-Options")).as(exchange).isEqualTo("nosniff");
    assertThat(answer.header("Cache-Control")).as(exchange).isNotNull();
    assertThat(answer.header("Server")).as(exchange).isNull();
  }

  private static void checkBody(JsonNode expected, Response answer, String exchange) {
    JsonNode content = expected.path("content");
    if (content.isMissingNode()) {
      assertThat(answer.asByteArray()).as(exchange).isEmpty();
      return;
    }
    String mediaType = mediaType(answer);
    assertThat(content.propertyNames()).as(exchange).contains(mediaType);
    String reference = content.path(mediaType).path("schema").path("$ref").asString("");
    if (!reference.isEmpty()) {
      JsonNode body = JsonMapper.shared().readTree(body(answer));
      assertThat(API.errors(OpenApi.name(reference), body)).as(exchange).isEmpty();
    }
  }

  private static void checkRequest(
      JsonNode operation, FilterableRequestSpecification request, String exchange) {
    JsonNode content = operation.path("requestBody").path("content");
    String sentAs =
        String.valueOf(request.getContentType())
            .replaceFirst(";.*", "")
            .strip()
            .toLowerCase(java.util.Locale.ROOT);
    assertThat(content.propertyNames()).as("request of " + exchange).contains(sentAs);
    String reference = content.path(sentAs).path("schema").path("$ref").asString("");
    if (reference.isEmpty()) {
      return; // lines, each of which is a document of its own
    }
    byte[] sent = request.getBody();
    JsonNode body = JsonMapper.shared().readTree(sent);
    assertThat(API.errors(OpenApi.name(reference), body)).as("request of " + exchange).isEmpty();
  }

  /** The body without its coding. */
  private static byte[] body(Response answer) {
    byte[] body = answer.asByteArray();
    if (answer.header("Content-Encoding") == null) {
      return body;
    }
    try (GZIPInputStream gzip = new GZIPInputStream(new ByteArrayInputStream(body))) {
      return gzip.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String mediaType(Response answer) {
    String type = answer.contentType();
    return type.replaceFirst(";.*", "");
  }
}
