package evenside.api;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.BufferedInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.IntFunction;

/**
 * A plain load generator: each connection sends a request, reads the answer, and sends the next.
 * Loopback only.
 */
final class LoadClient {
  private final int port;
  private final AtomicInteger count = new AtomicInteger();

  LoadClient(int port) {
    this.port = port;
  }

  /**
   * One request.
   *
   * @param method its method
   * @param path its path
   * @param body its body; empty for none
   */
  record Request(String method, String path, String body) {
    private byte[] bytes(int number) {
      byte[] content = body.getBytes(UTF_8);
      StringBuilder head =
          new StringBuilder(method).append(' ').append(path).append(" HTTP/1.1\r\n");
      head.append("Host: localhost\r\n");
      if (!body.isEmpty()) {
        head.append("Content-Type: application/json\r\nIdempotency-Key: load-").append(number);
        head.append('-').append(System.nanoTime());
        head.append("\r\nContent-Length: ").append(content.length).append("\r\n");
      }
      byte[] start = head.append("\r\n").toString().getBytes(UTF_8);
      byte[] all = Arrays.copyOf(start, start.length + content.length);
      System.arraycopy(content, 0, all, start.length, content.length);
      return all;
    }
  }

  /**
   * What a run gave.
   *
   * @param perSecond answers per second
   * @param p50 half of the answers came within so many milliseconds
   * @param p99 99 of 100 did
   */
  record Figures(double perSecond, double p50, double p99) {}

  /** Sends one request and gives the body of the answer. */
  String once(Request request) {
    try (Connection connection = new Connection()) {
      return new String(connection.exchange(request.bytes(count.incrementAndGet())), UTF_8);
    } catch (IOException e) {
      throw new IllegalStateException(request.path(), e);
    }
  }

  /** Sends requests over some connections for a while. */
  Figures run(int connections, long milliseconds, IntFunction<Request> requests) {
    ExecutorService threads = Executors.newFixedThreadPool(connections);
    long start = System.nanoTime();
    long end = start + milliseconds * 1_000_000;
    List<Future<List<Long>>> running = new ArrayList<>();
    for (int i = 0; i < connections; i++) {
      running.add(threads.submit(() -> loop(end, requests)));
    }
    List<Long> times = new ArrayList<>();
    try {
      for (Future<List<Long>> one : running) {
        times.addAll(one.get());
      }
    } catch (InterruptedException | ExecutionException e) {
      throw new IllegalStateException(e);
    } finally {
      threads.shutdownNow();
    }
    double seconds = (System.nanoTime() - start) / 1e9;
    long[] sorted = times.stream().mapToLong(Long::longValue).sorted().toArray();
    if (sorted.length == 0) {
      throw new IllegalStateException("no answer within " + milliseconds + " ms");
    }
    return new Figures(sorted.length / seconds, at(sorted, 0.5), at(sorted, 0.99));
  }

  private static double at(long[] sorted, double share) {
    return sorted[(int) (share * (sorted.length - 1))] / 1e6;
  }

  private List<Long> loop(long end, IntFunction<Request> requests) throws IOException {
    List<Long> times = new ArrayList<>();
    try (Connection connection = new Connection()) {
      for (long start = System.nanoTime(); start < end; start = System.nanoTime()) {
        int number = count.incrementAndGet();
        connection.exchange(requests.apply(number).bytes(number));
        times.add(System.nanoTime() - start);
      }
    }
    return times;
  }

  private final class Connection implements AutoCloseable {
    private final Socket socket;
    private final InputStream in;
    private final OutputStream out;

    Connection() throws IOException {
      socket = new Socket(InetAddress.getLoopbackAddress(), port);
      socket.setTcpNoDelay(true);
      in = new BufferedInputStream(socket.getInputStream(), 1 << 16);
      out = socket.getOutputStream();
    }

    /** The body of a good answer; anything else ends the run. */
    byte[] exchange(byte[] request) throws IOException {
      out.write(request);
      String status = line();
      int length = 0;
      for (String header = line(); !header.isEmpty(); header = line()) {
        if (header.regionMatches(true, 0, "content-length:", 0, 15)) {
          length = Integer.parseInt(header.substring(15).trim());
        }
      }
      byte[] body = in.readNBytes(length);
      if (!status.startsWith("HTTP/1.1 2")) {
        throw new IOException(status + " " + new String(body, UTF_8));
      }
      return body;
    }

    private String line() throws IOException {
      StringBuilder line = new StringBuilder();
      for (int c = in.read(); c != '\n'; c = in.read()) {
        if (c < 0) {
          throw new EOFException();
        }
        if (c != '\r') {
          line.append((char) c);
        }
      }
      return line.toString();
    }

    @Override
    public void close() throws IOException {
      socket.close();
    }
  }
}
