package evenside.api.http;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * One line of the route table.
 *
 * @param method the method
 * @param path path template, {@code /v1/cases/{caseId}}
 * @param representations the forms the answer comes in, the preferred one first
 * @param query names of the query parameters it takes
 */
public record Route(
    Method method, String path, List<Representation> representations, Set<String> query) {
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
    return new Route(method, path, List.of(new Representation(JSON, endpoint)), Set.of());
  }

  /** The same route, its first endpoint answering in these media types instead of JSON. */
  public Route producing(String... mediaTypes) {
    Endpoint endpoint = representations.get(0).endpoint();
    List<Representation> others =
        List.of(mediaTypes).stream().map(type -> new Representation(type, endpoint)).toList();
    return new Route(method, path, others, query);
  }

  /** The same route, answering in a further media type by an endpoint of its own. */
  public Route also(String mediaType, Endpoint endpoint) {
    List<Representation> more = new ArrayList<>(representations);
    more.add(new Representation(mediaType, endpoint));
    return new Route(method, path, more, query);
  }

  /** The same route, taking these query parameters. */
  public Route taking(String... parameters) {
    return new Route(method, path, representations, Set.of(parameters));
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
