package evenside.api.http;

import evenside.api.access.Scope;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * One line of the route table.
 *
 * @param method the method
 * @param path path template, {@code /v1/cases/{caseId}}
 * @param representations the forms the answer comes in, the preferred one first
 * @param query names of the query parameters it takes
 * @param scopes what the caller must be allowed; one of them suffices
 * @param open whether anyone may call it, unknown or not
 * @param accepts media type of the body, where it takes one
 * @param deprecation that it should no longer be used, if so
 */
public record Route(
    Method method,
    String path,
    List<Representation> representations,
    Set<String> query,
    Set<Scope> scopes,
    boolean open,
    String accepts,
    Optional<Deprecation> deprecation) {
  /** Media type of almost everything. */
  public static final String JSON = "application/json";

  /**
   * One form of the answer.
   *
   * @param mediaType its media type
   * @param endpoint what answers in it
   */
  public record Representation(String mediaType, Endpoint endpoint) {}

  /** Keeps its own copies. */
  public Route {
    representations = List.copyOf(representations);
    query = Set.copyOf(query);
    scopes = Set.copyOf(scopes);
  }

  /** A route that answers GET with JSON and takes no query parameter. */
  public static Route get(String path, Endpoint endpoint) {
    return of(Method.GET, path, endpoint);
  }

  /** A route that answers POST with JSON. */
  public static Route post(String path, Endpoint endpoint) {
    return of(Method.POST, path, endpoint);
  }

  /** A route that answers PUT with JSON. */
  public static Route put(String path, Endpoint endpoint) {
    return of(Method.PUT, path, endpoint);
  }

  private static Route of(Method method, String path, Endpoint endpoint) {
    return new Route(
        method,
        path,
        List.of(new Representation(JSON, endpoint)),
        Set.of(),
        Set.of(),
        false,
        JSON,
        Optional.empty());
  }

  /** The same route, its first endpoint answering in these media types instead of JSON. */
  public Route producing(String... mediaTypes) {
    Endpoint endpoint = representations.get(0).endpoint();
    List<Representation> others =
        List.of(mediaTypes).stream().map(type -> new Representation(type, endpoint)).toList();
    return new Route(method, path, others, query, scopes, open, accepts, deprecation);
  }

  /** The same route, answering in a further media type by an endpoint of its own. */
  public Route also(String mediaType, Endpoint endpoint) {
    List<Representation> more = new ArrayList<>(representations);
    more.add(new Representation(mediaType, endpoint));
    return new Route(method, path, more, query, scopes, open, accepts, deprecation);
  }

  /** The same route, taking these query parameters. */
  public Route taking(String... parameters) {
    return new Route(
        method, path, representations, Set.of(parameters), scopes, open, accepts, deprecation);
  }

  /** The same route, taking bodies of another media type than JSON itself. */
  public Route accepting(String mediaType) {
    return new Route(method, path, representations, query, scopes, open, mediaType, deprecation);
  }

  /** The same route, for callers with one of these scopes. */
  public Route needing(Scope... anyOf) {
    return new Route(
        method, path, representations, query, Set.of(anyOf), false, accepts, deprecation);
  }

  /** The same route, for anyone: it shows what is published, and never a clinic's record. */
  public Route openToAnyone() {
    return new Route(method, path, representations, query, Set.of(), true, accepts, deprecation);
  }

  /**
   * The same route, no longer to be used.
   *
   * @param since when it was, or will be, deprecated
   * @param sunset when it may stop to answer
   * @param notice where what to do instead is described
   */
  public Route deprecated(Instant since, Instant sunset, String notice) {
    Deprecation deprecated = new Deprecation(since, sunset, notice);
    return new Route(
        method, path, representations, query, scopes, open, accepts, Optional.of(deprecated));
  }

  /** Whether it counts against the limit of a client: health and pages do not. */
  boolean limited() {
    return path.startsWith("/v1/");
  }

  /** Whether it says who may call it. */
  boolean isGuarded() {
    return open || !scopes.isEmpty();
  }

  /** Media types of the answer, the preferred one first. */
  public List<String> produces() {
    return representations.stream().map(Representation::mediaType).toList();
  }

  /** What answers in a media type that {@link #produces} lists. */
  Endpoint answering(String mediaType) {
    return representations.stream()
        .filter(one -> one.mediaType().equals(mediaType))
        .findFirst()
        .orElseThrow()
        .endpoint();
  }
}
