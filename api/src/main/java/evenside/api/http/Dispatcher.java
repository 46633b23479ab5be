package evenside.api.http;

import evenside.api.access.Authentication;
import evenside.api.access.Caller;
import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import evenside.api.problem.Problems;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.http.HandlerType;
import io.javalin.http.HttpResponseException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.Supplier;
import tools.jackson.databind.json.JsonMapper;

/**
 * Between the server and the endpoints: checks what holds for every route, answers, and turns each
 * failure into a problem.
 */
public final class Dispatcher {
  private final Authentication authentication;
  private final RateLimit rateLimit;
  private final int maxBodyBytes;
  private final Collection<Route> routes;
  private final LargeBodies largeBodies = new LargeBodies();

  /**
   * A dispatcher over a route table.
   *
   * @param authentication tells who calls
   * @param rateLimit how much each of them may call
   * @param maxBodyBytes largest body
   * @param routes the route table; each says who may call it
   */
  public Dispatcher(
      Authentication authentication,
      RateLimit rateLimit,
      int maxBodyBytes,
      Collection<Route> routes) {
    this.authentication = authentication;
    this.rateLimit = rateLimit;
    this.maxBodyBytes = maxBodyBytes;
    this.routes = List.copyOf(routes);
    for (Route route : routes) {
      if (!route.isGuarded()) {
        throw new IllegalArgumentException(
            route.method() + " " + route.path() + " names no scope and is not open to anyone");
      }
    }
  }

  /** Registers every route, HEAD beside each GET, OPTIONS on each path, and all failures. */
  public void register(JavalinConfig config) {
    for (Route route : routes) {
      add(config, HandlerType.findOrCreate(route.method().name()), route);
      if (route.method() == Method.GET) {
        add(config, HandlerType.HEAD, route);
      }
    }
    allowedByPath()
        .forEach(
            (path, allowed) ->
                config.routes.options(
                    path,
                    context -> {
                      Notes.route(context, path);
                      context.status(204).header("Allow", allowed);
                      context.res().setContentType(null);
                    }));
    config.routes.exception(Exception.class, Dispatcher::fail);
    // Registered by Javalin for itself; without this one it would win over the line above.
    config.routes.exception(
        HttpResponseException.class, (refused, context) -> failUnrouted(refused, context));
  }

  private void add(JavalinConfig config, HandlerType type, Route route) {
    config.routes.addHttpHandler(type, route.path(), context -> run(route, context));
  }

  private void run(Route route, Context context) {
    Notes.route(context, route.path());
    HttpServletRequest request = context.req();
    route.deprecation().ifPresent(deprecation -> announce(deprecation, context));
    Caller caller = admitted(route, request);
    Notes.client(context, caller);
    if (route.limited()) {
      rateLimit.take(caller);
    }
    String query = request.getQueryString();
    Call call =
        new Call(
            caller,
            route.method(),
            context.path(),
            context.pathParamMap(),
            Query.read(query == null ? "" : query, route.query()),
            name -> Collections.list(request.getHeaders(name)),
            MediaTypes.negotiate(headers(request, "Accept"), route.produces()),
            body(route, request),
            () -> RequestBody.stream(request));
    if (route.representations().size() > 1) {
      context.header("Vary", "Accept");
    }
    Endpoint endpoint = route.answering(call.mediaType());
    long announced = route.method() == Method.GET ? 0 : request.getContentLengthLong();
    Reply reply = largeBodies.within(announced, () -> endpoint.answer(call));
    Notes.record(context, call.ids(), reply);
    send(reply, context);
  }

  /** Who calls, if it may: asked before anything else, so that strangers learn nothing. */
  private Caller admitted(Route route, HttpServletRequest request) {
    if (route.open()) {
      return Caller.UNKNOWN;
    }
    Caller caller = authentication.caller(headers(request, "Authorization"));
    caller.demandAny(route.scopes());
    return caller;
  }

  private Supplier<byte[]> body(Route route, HttpServletRequest request) {
    if (route.method() == Method.GET) {
      return () -> new byte[0];
    }
    MediaTypes.require(
        route.accepts(),
        headers(request, "Content-Type"),
        headers(request, "Content-Encoding"),
        headers(request, "Transfer-Encoding"));
    return () -> RequestBody.read(request, maxBodyBytes);
  }

  private static void announce(Deprecation deprecation, Context context) {
    context.header("Deprecation", deprecation.deprecationHeader());
    context.header("Sunset", deprecation.sunsetHeader());
    context.res().addHeader("Link", deprecation.linkHeader());
  }

  private static void send(Reply reply, Context context) {
    // A link may be there already, and one more does not take its place.
    reply
        .headers()
        .forEach(
            (name, value) -> {
              if (name.equals("Link")) {
                context.res().addHeader(name, value);
              } else {
                context.header(name, value);
              }
            });
    boolean coded = coded(reply.mediaType(), reply.body(), context);
    String plain = reply.headers().get("ETag");
    String tag = plain != null && coded ? EntityTags.coded(plain) : plain;
    if (tag != null) {
      context.header("ETag", tag);
    }
    boolean reading = List.of(HandlerType.GET, HandlerType.HEAD).contains(context.method());
    boolean known =
        reading
            && tag != null
            && EntityTags.noneMatchFails(headers(context.req(), "If-None-Match"), tag);
    if (known) {
      // What describes the body goes with the body.
      context.removeHeader("Repr-Digest");
      context.removeHeader("Link");
      context.status(304);
      context.res().setContentType(null);
      return;
    }
    context.status(reply.status());
    if (reply.stream().isPresent()) {
      write(context, reply.mediaType(), reply.stream().get());
    } else {
      write(context, reply.mediaType(), coded ? code(reply.body(), context) : reply.body());
    }
  }

  /** Whether the body goes out with gzip; says to caches that this depends on who asks. */
  private static boolean coded(String mediaType, byte[] body, Context context) {
    if (!ContentCoding.varies(mediaType, body)) {
      return false;
    }
    String vary = context.res().getHeader("Vary");
    context.header("Vary", vary == null ? "Accept-Encoding" : vary + ", Accept-Encoding");
    return ContentCoding.wanted(headers(context.req(), "Accept-Encoding"));
  }

  private static byte[] code(byte[] body, Context context) {
    byte[] coded = ContentCoding.gzip(body);
    context.header("Content-Encoding", ContentCoding.GZIP);
    if (context.res().getHeader("Repr-Digest") != null) {
      context.header("Repr-Digest", Digests.field(Digests.sha256(coded)));
    }
    return coded;
  }

  private static void fail(Exception failure, Context context) {
    answer(Problems.of(failure, context.res().getHeader(RequestIds.HEADER)), context);
  }

  /** What is no exception: memory or stack used up. */
  public static void fail(HttpServletResponse response, Error failure) {
    String id = response.getHeader(RequestIds.HEADER);
    byte[] body = JsonMapper.shared().writeValueAsBytes(Problems.of(failure, id).toJson(id));
    response.setContentType(Problem.MEDIA_TYPE);
    response.setHeader("Cache-Control", Cache.NONE.value());
    try {
      response.getOutputStream().write(body);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** What Javalin refuses by itself: an unknown path, or a known one with the wrong method. */
  private static void failUnrouted(HttpResponseException refused, Context context) {
    String allowed = refused.getDetails().get("availableMethods");
    if (allowed == null) {
      allowed = refused.getDetails().get("Available methods");
    }
    Problem problem =
        allowed == null
            ? Problems.NOTHING_HERE
            : Problem.of(ProblemType.METHOD_NOT_ALLOWED, "This path takes " + allowed + ".")
                .withHeader("Allow", allowed);
    answer(problem, context);
  }

  private static void answer(Problem problem, Context context) {
    Notes.problem(context, problem);
    String id = context.res().getHeader(RequestIds.HEADER);
    context.status(problem.type().status());
    context.header("Cache-Control", Cache.NONE.value());
    problem.headers().forEach(context::header);
    byte[] body = JsonMapper.shared().writeValueAsBytes(problem.toJson(id));
    boolean coded = coded(Problem.MEDIA_TYPE, body, context);
    write(context, Problem.MEDIA_TYPE, coded ? code(body, context) : body);
  }

  private static void write(Context context, String mediaType, byte[] body) {
    context.contentType(mediaType);
    context.res().setContentLength(body.length);
    if (!context.method().equals(HandlerType.HEAD)) {
      context.result(body);
    }
  }

  private static void write(Context context, String mediaType, Reply.Stream stream) {
    context.contentType(mediaType);
    if (!context.method().equals(HandlerType.HEAD)) {
      try {
        stream.writeTo(context.res().getOutputStream());
      } catch (IOException e) {
        throw new UncheckedIOException("the client did not take the answer", e);
      }
    }
  }

  private Map<String, String> allowedByPath() {
    Map<String, TreeSet<String>> methods = new LinkedHashMap<>();
    for (Route route : routes) {
      TreeSet<String> ofPath =
          methods.computeIfAbsent(route.path(), path -> new TreeSet<>(List.of("OPTIONS")));
      ofPath.add(route.method().name());
      if (route.method() == Method.GET) {
        ofPath.add("HEAD");
      }
    }
    Map<String, String> allowed = new LinkedHashMap<>();
    methods.forEach((path, names) -> allowed.put(path, String.join(", ", names)));
    return allowed;
  }

  private static List<String> headers(HttpServletRequest request, String name) {
    return Collections.list(request.getHeaders(name));
  }
}
