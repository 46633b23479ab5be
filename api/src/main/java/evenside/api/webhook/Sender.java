package evenside.api.webhook;

import evenside.api.http.Digests;
import evenside.readiness.Announcement;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.time.Duration;
import java.time.InstantSource;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.CancellationException;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;

/**
 * Sends one announcement to one receiver. It goes to the URL of the target and nowhere else: a
 * redirect is a failure like any other answer that is not 2xx.
 */
final class Sender implements AutoCloseable {
  /** For the whole exchange, the body of the answer included. */
  static final Duration TIMEOUT = Duration.ofSeconds(10);

  /** Identifies the event; equal at every attempt. */
  static final String EVENT = "Evenside-Event";

  private static final String LABEL = "evenside";
  private static final String JSON = "application/json";

  private final InstantSource clock;
  private final HttpClient client =
      HttpClient.newBuilder()
          .version(HttpClient.Version.HTTP_1_1)
          .followRedirects(HttpClient.Redirect.NEVER)
          .connectTimeout(TIMEOUT)
          .build();

  private final Map<UUID, CompletableFuture<?>> open = new ConcurrentHashMap<>();

  Sender(InstantSource clock) {
    this.clock = clock;
  }

  /**
   * What the receiver answered.
   *
   * @param status of HTTP
   * @param retryAfter how long it asks to be left alone, if it does
   */
  record Answer(int status, Optional<Duration> retryAfter) {
    boolean isTaken() {
      return status / 100 == 2;
    }
  }

  /**
   * Sends.
   *
   * @throws IOException if there was no answer
   */
  Answer send(Target target, Announcement announcement) throws IOException, InterruptedException {
    HttpRequest request = request(target, announcement);
    CompletableFuture<HttpResponse<Void>> answer =
        client.sendAsync(request, BodyHandlers.discarding());
    open.put(announcement.id(), answer);
    try {
      return answered(answer.get(TIMEOUT.toMillis(), TimeUnit.MILLISECONDS));
    } catch (TimeoutException e) {
      throw new IOException("no answer within " + TIMEOUT.toSeconds() + " seconds", e);
    } catch (ExecutionException e) {
      throw new IOException(reason(e), e);
    } catch (CancellationException e) {
      throw new IOException("the service stops", e);
    } finally {
      open.remove(announcement.id());
      answer.cancel(true);
    }
  }

  private Answer answered(HttpResponse<Void> response) {
    return new Answer(
        response.statusCode(),
        response
            .headers()
            .firstValue(RetryAfter.HEADER)
            .flatMap(value -> RetryAfter.of(value, clock.instant())));
  }

  /** Waits for no answer any more. */
  @Override
  public void close() {
    open.values().forEach(answer -> answer.cancel(true));
  }

  /** The message of a failed connection may repeat an address; its kind says enough. */
  private static String reason(ExecutionException e) {
    return e.getCause() == null ? "failed" : e.getCause().getClass().getSimpleName();
  }

  private HttpRequest request(Target target, Announcement announcement) {
    byte[] body = announcement.document().bytes();
    URI url = target.url();
    Map<String, String> covered = new LinkedHashMap<>();
    covered.put("@method", "POST");
    covered.put("@authority", authority(url));
    covered.put("@path", url.getRawPath().isEmpty() ? "/" : url.getRawPath());
    covered.put("content-type", JSON);
    covered.put("content-digest", Digests.field(Digests.sha256(body)));
    covered.put(EVENT.toLowerCase(Locale.ROOT), announcement.id().toString());
    String parameters =
        "created=%d;keyid=\"%s\";alg=\"hmac-sha256\""
            .formatted(clock.instant().getEpochSecond(), target.keyId());
    MessageSignature signed =
        MessageSignature.of(LABEL, covered, parameters, target.secret().bytes());
    return HttpRequest.newBuilder(url)
        .timeout(TIMEOUT)
        .header("Content-Type", JSON)
        .header("Content-Digest", covered.get("content-digest"))
        .header(EVENT, announcement.id().toString())
        .header("Signature-Input", signed.input())
        .header("Signature", signed.signature())
        .POST(HttpRequest.BodyPublishers.ofByteArray(body))
        .build();
  }

  /** Host in lower case, and the port unless it is the usual one (RFC 9421, section 2.2.3). */
  private static String authority(URI url) {
    String host = url.getHost().toLowerCase(Locale.ROOT);
    int usual = "https".equals(url.getScheme()) ? 443 : 80;
    return url.getPort() < 0 || url.getPort() == usual ? host : host + ":" + url.getPort();
  }
}
