package evenside.api;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.Locale;

/** One exchange over a bare socket: for requests that no HTTP library would send. */
public record RawExchange(String text) {
  public static RawExchange with(int port, String request) {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
      socket.setSoTimeout(5_000);
      socket.getOutputStream().write(request.getBytes(StandardCharsets.ISO_8859_1));
      socket.getOutputStream().flush();
      return new RawExchange(
          new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public int status() {
    return Integer.parseInt(text.split(" ", 3)[1]);
  }

  /** The value of a header, or an empty text. */
  public String header(String name) {
    for (String line : text.split("\r\n\r\n", 2)[0].split("\r\n", -1)) {
      if (line.toLowerCase(Locale.ROOT).startsWith(name.toLowerCase(Locale.ROOT) + ":")) {
        return line.substring(name.length() + 1).strip();
      }
    }
    return "";
  }

  public String body() {
    return text.split("\r\n\r\n", 2)[1];
  }
}
