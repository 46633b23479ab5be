package evenside.api.webhook;

import com.sun.net.httpserver.Headers;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.function.IntUnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * A receiver on this machine that believes nothing: it builds the signature base from the request
 * by what {@code Signature-Input} says, as RFC 9421 tells a verifier to.
 */
public final class Receiver implements AutoCloseable {
  private static final Pattern INPUT = Pattern.compile("evenside=(\\(([^)]*)\\);(.*))");

  private final HttpServer server;
  private final byte[] secret;
  private final IntUnaryOperator answer;
  private volatile @Nullable String retryAfter;
  private final List<Heard> heard = new CopyOnWriteArrayList<>();

  /**
   * One request.
   *
   * @param event id in the header
   * @param body as sent
   * @param genuine whether digest and signature fit
   * @param parameters of the signature
   */
  public record Heard(String event, String body, boolean genuine, String parameters) {
    public JsonNode json() {
      return JsonMapper.shared().readTree(body);
    }
  }

  /**
   * Starts.
   *
   * @param port 0 for a free one
   * @param answer status for the n-th request, from 1
   */
  public Receiver(int port, byte[] secret, IntUnaryOperator answer) throws IOException {
    this.secret = secret.clone();
    this.answer = answer;
    this.server =
        HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), 0);
    server.setExecutor(Executors.newCachedThreadPool());
    server.createContext("/", this::hear);
    server.start();
  }

  /** Adds the header to every answer that is not 2xx. */
  Receiver asking(String retryAfter) {
    this.retryAfter = retryAfter;
    return this;
  }

  public int port() {
    return server.getAddress().getPort();
  }

  public String url() {
    return "http://127.0.0.1:" + port() + "/hooks/evenside";
  }

  public List<Heard> heard() {
    return List.copyOf(heard);
  }

  /** Waits until so many requests came. */
  public List<Heard> await(int count) throws InterruptedException {
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(20);
    while (heard.size() < count && System.nanoTime() < end) {
      Thread.sleep(20);
    }
    return heard();
  }

  private void hear(HttpExchange exchange) throws IOException {
    try (exchange) {
      byte[] body = exchange.getRequestBody().readAllBytes();
      Headers headers = exchange.getRequestHeaders();
      int number;
      synchronized (this) {
        heard.add(
            new Heard(
                String.valueOf(headers.getFirst("Evenside-Event")),
                new String(body, StandardCharsets.UTF_8),
                genuine(exchange, body),
                String.valueOf(headers.getFirst("Signature-Input"))));
        number = heard.size();
      }
      int status = answer.applyAsInt(number);
      if (status / 100 == 3) {
        exchange.getResponseHeaders().set("Location", "/elsewhere");
      }
      if (status / 100 != 2 && retryAfter != null) {
        exchange.getResponseHeaders().set("Retry-After", retryAfter);
      }
      exchange.sendResponseHeaders(status, -1);
    }
  }

  private boolean genuine(HttpExchange exchange, byte[] body) {
    Headers headers = exchange.getRequestHeaders();
    Matcher input = INPUT.matcher(String.valueOf(headers.getFirst("Signature-Input")));
    try {
      String digest =
          Base64.getEncoder().encodeToString(MessageDigest.getInstance("SHA-256").digest(body));
      if (!input.matches()
          || !("sha-256=:" + digest + ":").equals(headers.getFirst("Content-Digest"))) {
        return false;
      }
      List<String> lines = new ArrayList<>();
      for (String quoted : input.group(2).split(" ")) {
        String name = quoted.replace("\"", "");
        String value =
            switch (name) {
              case "@method" -> exchange.getRequestMethod();
              case "@path" -> exchange.getRequestURI().getRawPath();
              case "@authority" -> headers.getFirst("Host");
              default -> headers.getFirst(name);
            };
        lines.add(quoted + ": " + value);
      }
      lines.add("\"@signature-params\": " + input.group(1));
      Mac mac = Mac.getInstance("HmacSHA256");
      mac.init(new SecretKeySpec(secret, "HmacSHA256"));
      byte[] expected = mac.doFinal(String.join("\n", lines).getBytes(StandardCharsets.UTF_8));
      String signature = "evenside=:" + Base64.getEncoder().encodeToString(expected) + ":";
      return signature.equals(headers.getFirst("Signature"))
          && input.group(2).contains("content-digest");
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }

  @Override
  public void close() {
    server.stop(0);
  }
}
