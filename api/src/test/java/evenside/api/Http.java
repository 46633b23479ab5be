package evenside.api;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.time.Duration;

/** Plain requests to a service of any process. */
public final class Http {
  private static final HttpClient CLIENT = HttpClient.newHttpClient();
  private static final Duration PATIENCE = Duration.ofSeconds(60);

  private Http() {}

  public static HttpResponse<String> get(URI service, String path)
      throws IOException, InterruptedException {
    return CLIENT.send(
        HttpRequest.newBuilder(service.resolve(path)).timeout(PATIENCE).build(),
        BodyHandlers.ofString());
  }

  public static HttpResponse<String> send(
      URI service, String method, String path, String mediaType, String body, String... headers)
      throws IOException, InterruptedException {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(service.resolve(path))
            .timeout(PATIENCE)
            .header("Content-Type", mediaType)
            .method(method, BodyPublishers.ofString(body));
    for (int i = 0; i < headers.length; i += 2) {
      request.header(headers[i], headers[i + 1]);
    }
    return CLIENT.send(request.build(), BodyHandlers.ofString());
  }

  public static HttpResponse<String> decide(URI service, String caseId, String key)
      throws IOException, InterruptedException {
    return send(
        service,
        "POST",
        "/v1/cases/" + caseId + "/decisions",
        "application/json",
        Examples.decisionRequest(),
        "Idempotency-Key",
        key);
  }

  public static HttpResponse<String> bulk(URI service, String lines)
      throws IOException, InterruptedException {
    return send(service, "POST", "/v1/bulk", "application/x-ndjson", lines);
  }
}
