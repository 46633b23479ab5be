package evenside.api.bulk;

import evenside.schemas.NotJson;
import evenside.schemas.StrictJson;
import evenside.schemas.StrictJson.Limits;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.ConnectException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** Sends lines to a service, and again where that helps: every line is stored once. */
public final class BulkClient {
  private static final int ATTEMPTS = 8;
  private static final Duration LONGEST_ANSWER = Duration.ofMinutes(5);

  private final HttpClient http =
      HttpClient.newBuilder()
          .version(HttpClient.Version.HTTP_1_1)
          .connectTimeout(Duration.ofSeconds(10))
          .build();
  private final URI target;
  private final Optional<String> token;
  private final Duration pause;

  /**
   * A client.
   *
   * @param service where the service listens
   * @param token the bearer token, if the service asks for one
   * @param pause before the second attempt; each further one waits twice as long
   */
  public BulkClient(URI service, Optional<String> token, Duration pause) {
    String base = service.toString().replaceFirst("/+$", "");
    this.target = URI.create(base + "/v1/bulk");
    this.token = token;
    this.pause = pause;
  }

  /** The service does not answer, or refuses all lines as a whole. */
  public static final class Unreachable extends RuntimeException {
    Unreachable(String message) {
      super(message);
    }
  }

  /**
   * Sends lines.
   *
   * @return the answer to each, in their order
   * @throws Unreachable after several attempts, or at once where a further one cannot help
   */
  List<JsonNode> send(List<byte[]> lines) {
    String last = "";
    for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
      waitBefore(attempt);
      try {
        HttpResponse<byte[]> response = http.send(request(lines), BodyHandlers.ofByteArray());
        if (response.statusCode() == 200) {
          List<JsonNode> answers = answers(response.body(), lines.size());
          if (answers.stream().noneMatch(answer -> answer.path("status").asInt() == 503)) {
            return answers;
          }
          last = "the database does not answer";
        } else if (response.statusCode() == 503 || response.statusCode() == 429) {
          last = "status " + response.statusCode();
        } else {
          throw new Unreachable("the service refuses: " + title(response));
        }
      } catch (ConnectException e) {
        last = "nothing listens there";
      } catch (IOException e) {
        last = String.valueOf(e);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new Unreachable("interrupted");
      }
    }
    throw new Unreachable("the service at " + target + " does not answer: " + last);
  }

  private void waitBefore(int attempt) {
    if (attempt == 0) {
      return;
    }
    try {
      Thread.sleep(pause.toMillis() << (attempt - 1));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new Unreachable("interrupted");
    }
  }

  private HttpRequest request(List<byte[]> lines) {
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    for (byte[] line : lines) {
      body.writeBytes(line);
      body.write('\n');
    }
    HttpRequest.Builder request =
        HttpRequest.newBuilder(target)
            .timeout(LONGEST_ANSWER)
            .header("Content-Type", "application/x-ndjson")
            .POST(BodyPublishers.ofByteArray(body.toByteArray()));
    token.ifPresent(word -> request.header("Authorization", "Bearer " + word));
    return request.build();
  }

  private static List<JsonNode> answers(byte[] body, int wanted) throws IOException {
    List<JsonNode> answers = new ArrayList<>();
    for (String line : new String(body, StandardCharsets.UTF_8).lines().toList()) {
      answers.add(read(line.getBytes(StandardCharsets.UTF_8)));
    }
    if (answers.size() != wanted) {
      throw new IOException("the answer has " + answers.size() + " lines, not " + wanted);
    }
    return answers;
  }

  private static JsonNode read(byte[] line) throws IOException {
    try {
      return StrictJson.read(line, Limits.OWN);
    } catch (NotJson broken) {
      throw new IOException("the answer broke off", broken);
    }
  }

  private static String title(HttpResponse<byte[]> response) {
    try {
      JsonNode problem = StrictJson.read(response.body(), Limits.OWN);
      return response.statusCode() + " " + problem.path("detail").asString("");
    } catch (NotJson other) {
      return "status " + response.statusCode();
    }
  }
}
