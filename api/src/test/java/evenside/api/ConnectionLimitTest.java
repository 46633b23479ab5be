package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.access.Authentication;
import evenside.api.http.RateLimit;
import evenside.api.http.Reply;
import evenside.api.http.Route;
import evenside.api.metrics.Metrics;
import evenside.api.server.Draining;
import evenside.api.server.Front;
import evenside.api.server.ServerLimits;
import io.javalin.Javalin;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import tools.jackson.databind.node.JsonNodeFactory;

/** Connections that say nothing cannot keep others out. Common practice, no source. */
class ConnectionLimitTest {
  private static final int MOST = 4;

  /** Far longer than the test may take. */
  private static final Duration IDLE = Duration.ofMinutes(5);

  private final List<Socket> sockets = new ArrayList<>();
  private Javalin app;

  @BeforeEach
  void start() {
    ServerLimits limits = new ServerLimits(MOST, IDLE, IDLE, Duration.ofSeconds(1));
    Operations operations =
        new Operations(List.of(), new Metrics(), false, new Draining(), limits, RateLimit.NONE);
    List<Route> routes =
        List.of(
            Route.get("/livez", call -> nothing()).openToAnyone(),
            Route.get("/slow", call -> slowly()).openToAnyone());
    app =
        Api.create(Authentication.none("local"), operations, routes, Front.LOOPBACK)
            .start("127.0.0.1", 0);
  }

  private static Reply nothing() {
    return Reply.of(JsonNodeFactory.instance.objectNode());
  }

  /** Longer than a silent connection has at the limit. */
  private static Reply slowly() {
    try {
      Thread.sleep(5_000);
    } catch (InterruptedException e) {
      throw new AssertionError(e);
    }
    return nothing();
  }

  @AfterEach
  void stop() throws IOException {
    for (Socket socket : sockets) {
      socket.close();
    }
    app.stop();
  }

  @Test
  @Timeout(30)
  void silentConnections_thatFillTheServer_makeRoomForWhoAsks() throws Exception {
    for (int i = 0; i < MOST; i++) {
      connect();
    }
    assertThat(answer(asking("/livez"))).startsWith("HTTP/1.1 200 ");
  }

  @Test
  @Timeout(30)
  void request_thatTakesItsTime_isAnsweredAtTheLimitToo() throws Exception {
    Socket slow = asking("/slow");
    for (int i = 1; i < MOST; i++) {
      connect();
    }
    assertThat(answer(slow)).startsWith("HTTP/1.1 200 ");
  }

  private Socket connect() throws IOException {
    Socket socket = new Socket(InetAddress.getLoopbackAddress(), app.port());
    sockets.add(socket);
    return socket;
  }

  private Socket asking(String path) throws IOException {
    Socket socket = connect();
    String request = "GET " + path + " HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n";
    socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
    return socket;
  }

  private static String answer(Socket socket) throws IOException {
    return new String(socket.getInputStream().readAllBytes(), StandardCharsets.US_ASCII);
  }
}
