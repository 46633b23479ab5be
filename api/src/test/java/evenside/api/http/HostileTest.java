package evenside.api.http;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.ServiceProcess;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.net.SocketException;
import java.net.SocketTimeoutException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What nobody means well sends, to a service with a small heap: it goes on, uses no more memory and
 * answers nothing with 5xx. Common practice, no source; the colliding names follow from how Java
 * hashes a string (31 a + b: "Aa" and "BB" have the same hash).
 */
class HostileTest {
  private static final int MIB = 1 << 20;
  private static final String POST =
      "POST /v1/checks/battery HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n"
          + "Content-Type: application/json\r\n";

  @TempDir static Path folder;
  private static ServiceProcess service;

  @BeforeAll
  static void start() throws IOException {
    service =
        ServiceProcess.startWithHeap(
            "96m",
            folder.resolve("data"),
            "--log-form",
            "json",
            "--request-seconds",
            "3",
            "--idle-seconds",
            "2");
  }

  @AfterAll
  static void stop() {
    service.kill();
  }

  @AfterEach
  void service_goesOn() throws IOException {
    assertThat(get("/livez")).startsWith("HTTP/1.1 200");
    assertThat(service.isAlive()).isTrue();
    assertThat(service.output())
        .doesNotContain("OutOfMemory", "StackOverflow", "\"level\":\"ERROR\"")
        .doesNotContainPattern("\"status\":5[0-9][0-9]");
  }

  @ParameterizedTest
  @ValueSource(longs = {2L << 20, 1L << 30, 1L << 40, Long.MAX_VALUE})
  void body_announcedTooLarge_isRefused(long length) throws IOException {
    String head = POST + "Expect: 100-continue\r\nContent-Length: " + length + "\r\n\r\n";
    assertThat(exchange(head, new byte[0])).startsWith("HTTP/1.1 413");
  }

  /** Two GiB by four clients, if they were let; each is cut off after a few MiB. */
  @Test
  void bodies_withoutEnd_areCutOffEarly() throws Exception {
    List<Future<Long>> sent = new ArrayList<>();
    ExecutorService clients = Executors.newFixedThreadPool(4);
    for (int i = 0; i < 4; i++) {
      sent.add(clients.submit(() -> pour(512L * MIB)));
    }
    for (Future<Long> one : sent) {
      assertThat(one.get()).isBetween((long) MIB, 64L * MIB);
    }
    clients.shutdown();
  }

  /** Those that wait for room longer than a request may take are cut off, like any slow one. */
  @Test
  void bodies_ofTheLargestSize_atOnce_areAnsweredOneAfterTheOther() throws Exception {
    byte[] body = largest();
    List<Future<String>> answers = new ArrayList<>();
    ExecutorService clients = Executors.newFixedThreadPool(40);
    for (int i = 0; i < 40; i++) {
      answers.add(clients.submit(() -> post(body)));
    }
    int answered = 0;
    for (Future<String> answer : answers) {
      String text = answer.get();
      answered += text.isEmpty() ? 0 : 1;
      assertThat(text.isEmpty() || text.startsWith("HTTP/1.1 200")).isTrue();
    }
    assertThat(answered).isPositive();
    clients.shutdown();
  }

  /** More than there are places, each saying a byte in a while; others are served meanwhile. */
  @Test
  void clients_slow_areCutOff() throws Exception {
    List<Socket> slow = new ArrayList<>();
    for (int i = 0; i < 150; i++) {
      Socket socket = connect();
      String start = i % 2 == 0 ? "GET /livez HT" : POST + "Content-Length: 1000\r\n\r\n{";
      socket.getOutputStream().write(start.getBytes(StandardCharsets.US_ASCII));
      slow.add(socket);
    }
    assertThat(get("/livez")).startsWith("HTTP/1.1 200");
    long begun = System.nanoTime();
    List<Socket> left = new ArrayList<>(slow);
    while (!left.isEmpty() && System.nanoTime() - begun < 20_000_000_000L) {
      Thread.sleep(300);
      left.removeIf(HostileTest::isCutOff);
    }
    assertThat(left).isEmpty();
    for (Socket socket : slow) {
      socket.close();
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"[", "{\"a\":", "[[{\"b\":", "{\"a\":[1,"})
  void nesting_deep_isRefused(String level) throws IOException {
    byte[] body = level.repeat(MIB / level.length()).getBytes(StandardCharsets.US_ASCII);
    assertThat(post(body)).startsWith("HTTP/1.1 400").contains("json.too-deep");
  }

  @ParameterizedTest
  @ValueSource(strings = {"1e999999999", "1E-999999999", "-1e2147483648", "9", "0.", "1e"})
  void number_huge_isRefused(String number) throws IOException {
    boolean whole = number.length() > 3;
    String digits = whole ? number : number + "1".repeat(MIB / 2);
    assertThat(post(("{\"a\":" + digits + "}").getBytes(StandardCharsets.US_ASCII)))
        .startsWith("HTTP/1.1 400");
  }

  @Test
  void names_thatCollide_costNoMoreThanOthers() throws IOException {
    String colliding = names("Aa", "BB");
    String others = names("Ab", "CD");
    assertThat("AaBB".hashCode()).isEqualTo("BBAa".hashCode());
    time(others);
    long plain = time(others);
    long hostile = time(colliding);
    // Compared one by one they cost over a hundred times as much.
    assertThat(hostile).isLessThan(10 * plain + 500_000_000L);
  }

  /** Object members whose names are all words of two syllables, 2 to the 13th. */
  private static String names(String one, String other) {
    StringBuilder json = new StringBuilder("{");
    for (int i = 0; i < 1 << 13; i++) {
      json.append(i == 0 ? "\"" : ",\"");
      for (int bit = 0; bit < 13; bit++) {
        json.append((i >> bit & 1) == 0 ? one : other);
      }
      json.append("\":1");
    }
    return json.append('}').toString();
  }

  private static long time(String body) throws IOException {
    long begun = System.nanoTime();
    assertThat(post(body.getBytes(StandardCharsets.US_ASCII))).contains("member.unknown");
    return System.nanoTime() - begun;
  }

  /** As many tokens and bytes as are taken, all of them wrong. */
  private static byte[] largest() {
    StringBuilder json = new StringBuilder("{\"x\":[0");
    for (int i = 0; i < 24_000; i++) {
      json.append(",\"").append("v".repeat(38)).append('"');
    }
    json.append("],\"y\":{\"a\":0");
    for (int i = 0; i < 200; i++) {
      json.append("},\"m").append(i).append("\":{\"b\":1");
    }
    json.append("}}");
    byte[] body = json.toString().getBytes(StandardCharsets.US_ASCII);
    assertThat(body.length).isBetween(MIB * 9 / 10, MIB);
    return body;
  }

  private static String post(byte[] body) throws IOException {
    return exchange(POST + "Content-Length: " + body.length + "\r\n\r\n", body);
  }

  private static String get(String path) throws IOException {
    return exchange(
        "GET " + path + " HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n", new byte[0]);
  }

  /** The whole answer; empty if the connection was cut off without one. */
  private static String exchange(String head, byte[] body) throws IOException {
    try (Socket socket = connect()) {
      OutputStream out = socket.getOutputStream();
      out.write(head.getBytes(StandardCharsets.US_ASCII));
      out.write(body);
      out.flush();
      return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    } catch (SocketException cutOff) {
      return "";
    }
  }

  /** Sends chunks until nobody takes them any more; answers how many bytes went. */
  private static long pour(long most) {
    byte[] chunk = ("10000\r\n" + "a".repeat(0x10000) + "\r\n").getBytes(StandardCharsets.US_ASCII);
    long sent = 0;
    try (Socket socket = connect()) {
      OutputStream out = socket.getOutputStream();
      out.write((POST + "Transfer-Encoding: chunked\r\n\r\n").getBytes(StandardCharsets.US_ASCII));
      while (sent < most) {
        out.write(chunk);
        sent += chunk.length;
      }
    } catch (IOException cutOff) {
      return sent;
    }
    return sent;
  }

  private static boolean isCutOff(Socket socket) {
    try {
      InputStream in = socket.getInputStream();
      socket.setSoTimeout(1);
      byte[] rest = new byte[4096];
      int n = in.read(rest);
      while (n >= 0) {
        n = in.read(rest);
      }
      return true;
    } catch (SocketTimeoutException open) {
      return trickle(socket);
    } catch (IOException reset) {
      return true;
    }
  }

  /** One byte more, so that the connection is never idle. */
  private static boolean trickle(Socket socket) {
    try {
      socket.getOutputStream().write(' ');
      return false;
    } catch (IOException reset) {
      return true;
    }
  }

  private static Socket connect() throws IOException {
    Socket socket = new Socket(InetAddress.getLoopbackAddress(), service.url().getPort());
    socket.setSoTimeout(30_000);
    return socket;
  }
}
