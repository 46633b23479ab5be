package evenside.api.access;

import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpClient.Redirect;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;

/** Where a small document of the operator is read from. It is named by settings only. */
public interface Source {
  /** The largest document, in bytes. */
  int MOST_BYTES = 256 * 1024;

  /** How it is called in messages. */
  String name();

  /**
   * Its bytes now.
   *
   * @throws IOException if it cannot be read, or is larger than {@link #MOST_BYTES}
   */
  byte[] read() throws IOException;

  /** A file. */
  static Source file(Path path) {
    return new Source() {
      @Override
      public String name() {
        return path.toString();
      }

      @Override
      public byte[] read() throws IOException {
        try (InputStream in = Files.newInputStream(path)) {
          return bounded(in);
        }
      }
    };
  }

  /**
   * What a server answers at a URL; redirects are not followed.
   *
   * @throws IllegalArgumentException if it is not https, or http to this machine
   */
  static Source url(URI url) {
    boolean secure = "https".equals(url.getScheme());
    boolean here = "http".equals(url.getScheme()) && isLoopback(url.getHost());
    if (url.getHost() == null || url.getUserInfo() != null || !(secure || here)) {
      throw new IllegalArgumentException(
          "a URL of keys is https (or http to this machine itself), without user or password");
    }
    return new Url(url);
  }

  private static boolean isLoopback(String host) {
    return "127.0.0.1".equals(host) || "[::1]".equals(host) || "localhost".equals(host);
  }

  private static byte[] bounded(InputStream in) throws IOException {
    byte[] bytes = in.readNBytes(MOST_BYTES + 1);
    if (bytes.length > MOST_BYTES) {
      throw new IOException("it has more than " + MOST_BYTES + " bytes");
    }
    return bytes;
  }

  /** A document behind a URL. */
  final class Url implements Source {
    private static final Duration LONGEST_WAIT = Duration.ofSeconds(5);

    private final URI url;
    private final HttpClient client =
        HttpClient.newBuilder()
            .followRedirects(Redirect.NEVER)
            .connectTimeout(LONGEST_WAIT)
            .build();

    private Url(URI url) {
      this.url = url;
    }

    @Override
    public String name() {
      return url.toString();
    }

    @Override
    public byte[] read() throws IOException {
      HttpRequest request =
          HttpRequest.newBuilder(url)
              .timeout(LONGEST_WAIT)
              .header("Accept", "application/json")
              .build();
      try {
        HttpResponse<InputStream> response = client.send(request, BodyHandlers.ofInputStream());
        try (InputStream body = response.body()) {
          if (response.statusCode() != 200) {
            throw new IOException("it answers " + response.statusCode());
          }
          return bounded(body);
        }
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new IOException("interrupted", e);
      }
    }
  }
}
