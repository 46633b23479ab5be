package evenside.api.command;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.Http;
import evenside.api.InstalledServer;
import evenside.api.LinesService;
import evenside.api.ServiceProcess;
import evenside.ledger.KeyFiles;
import java.net.URI;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * A record on PostgreSQL is copied by the server's own tools while a replica records, as README
 * says, and put into another database. Held against checkpoints that were kept outside.
 */
@Timeout(240)
class DumpTest {
  @TempDir private Path folder;

  private final AtomicInteger decided = new AtomicInteger();

  private Path checkpoint(URI service, String name) throws Exception {
    return Files.writeString(
        folder.resolve(name), Http.get(service, "/v1/ledger/checkpoint").body());
  }

  /** Decides until told to stop. */
  private Thread client(URI service, String name, AtomicBoolean enough) {
    Thread client =
        new Thread(
            () -> {
              for (int i = 0; !enough.get(); i++) {
                try {
                  HttpResponse<String> reply = Http.decide(service, "knee-0", name + i);
                  assertThat(reply.statusCode()).isEqualTo(201);
                } catch (Exception e) {
                  throw new IllegalStateException(e);
                }
                decided.incrementAndGet();
              }
            });
    client.start();
    return client;
  }

  private void waitFor(int decisions) throws InterruptedException {
    int until = decided.get() + decisions;
    while (decided.get() < until) {
      Thread.sleep(5);
    }
  }

  @Test
  void dumpOfAServerInUse_holdsAgainstACheckpointFromBefore_andGoesOn() throws Exception {
    Path key = folder.resolve("ledger.key");
    KeyFiles.create(key);
    Path dump = folder.resolve("record.dump");
    try (InstalledServer server = InstalledServer.start(folder.resolve("pg"))) {
      Path early;
      Path late;
      String path;
      String decision;
      try (ServiceProcess service =
          ServiceProcess.start(
              folder.resolve("r"), "--database-url", server.url("postgres"), "--ledger-key", key)) {
        URI url = service.url();
        Http.bulk(url, LinesService.ndjson(LinesService.history(0, 1)));
        HttpResponse<String> first = Http.decide(url, "knee-0", "first");
        path = first.headers().firstValue("Location").orElseThrow();
        decision = first.body();
        early = checkpoint(url, "early");
        AtomicBoolean enough = new AtomicBoolean();
        List<Thread> clients = new ArrayList<>();
        for (int i = 0; i < 4; i++) {
          clients.add(client(url, "client-" + i + "-", enough));
        }
        waitFor(20);
        server.tool("pg_dump", "-Fc", "-f", dump, "postgres");
        waitFor(20);
        enough.set(true);
        for (Thread client : clients) {
          client.join();
        }
        late = checkpoint(url, "late");
      }
      server.tool("createdb", "copy");
      server.tool("pg_restore", "--exit-on-error", "-d", "copy", dump);
      String copy = server.url("copy");
      Run audit = Run.of("audit", "--database-url", copy, "--since", early);
      assertThat(audit.exitCode()).as(audit.out() + audit.err()).isZero();
      Run older = Run.of("audit", "--database-url", copy, "--since", early, "--since", late);
      assertThat(older.exitCode()).isEqualTo(Main.FAULTY);
      assertThat(older.out()).contains("the database is behind");

      try (ServiceProcess service =
          ServiceProcess.start(
              folder.resolve("other"), "--database-url", copy, "--ledger-key", key)) {
        assertThat(Http.get(service.url(), path).body()).isEqualTo(decision);
        assertThat(Http.decide(service.url(), "knee-0", "after").statusCode()).isEqualTo(201);
      }
      assertThat(Run.of("audit", "--database-url", copy, "--since", early).exitCode()).isZero();
    }
  }
}
