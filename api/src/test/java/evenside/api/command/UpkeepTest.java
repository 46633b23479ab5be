package evenside.api.command;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.DatabaseServer;
import evenside.api.Http;
import evenside.api.LinesService;
import evenside.api.ServiceProcess;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The keeper of a record copies it, brings it back and moves it, by the commands of the jar. */
@Timeout(240)
class UpkeepTest {
  @TempDir private Path folder;

  private static void record(URI service, int from) throws Exception {
    String lines = LinesService.ndjson(LinesService.history(from, 2));
    assertThat(Http.bulk(service, lines).body().lines())
        .hasSize(6)
        .allMatch(line -> line.contains("\"status\":201"));
  }

  private Path checkpoint(URI service, String name) throws Exception {
    return Files.writeString(
        folder.resolve(name), Http.get(service, "/v1/ledger/checkpoint").body());
  }

  @Test
  void copyOfARunningRecord_isBroughtBack_withItsProof_andAnOlderOneIsFoundOut() throws Exception {
    Path data = folder.resolve("data");
    Path copy = folder.resolve("copy.zip");
    Path early;
    Path late;
    try (ServiceProcess service = ServiceProcess.start(data)) {
      record(service.url(), 0);
      early = checkpoint(service.url(), "early");
      Run backup = Run.of("backup", "--data", data, "--to", copy);
      assertThat(backup.exitCode()).as(backup.err()).isZero();
      assertThat(Run.of("backup", "--data", data, "--to", copy).err()).contains("already");
      Run busy = Run.of("audit", "--data", data);
      assertThat(busy.exitCode()).isEqualTo(Main.FAILED);
      assertThat(busy.err()).contains("another Evenside", "stop it first", "restore");
      record(service.url(), 2);
      late = checkpoint(service.url(), "late");
    }
    if (Files.getFileStore(copy).supportsFileAttributeView("posix")) {
      assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(copy)))
          .isEqualTo("rw-------");
    }
    Path other = folder.resolve("other");
    Run restore = Run.of("restore", "--from", copy, "--data", other);
    assertThat(restore.exitCode()).as(restore.out() + restore.err()).isZero();
    assertThat(Run.of("audit", "--data", other, "--since", early).exitCode()).isZero();
    Run keyless = Run.of("serve", "--data", other, "--port", "0");
    assertThat(keyless.exitCode()).isEqualTo(Main.FAILED);
    assertThat(keyless.err()).contains("ledger.key is gone", "bring it back");
    assertThat(other.resolve("ledger.key")).doesNotExist();
    Run older = Run.of("audit", "--data", other, "--since", early, "--since", late);
    assertThat(older.exitCode()).isEqualTo(Main.FAULTY);
    assertThat(older.out()).contains("the database is behind");

    // Put back where newer checkpoints are: found without anybody's help.
    Files.delete(data.resolve("evenside.mv.db"));
    assertThat(Run.of("restore", "--from", copy, "--data", data).exitCode()).isZero();
    assertThat(Run.of("audit", "--data", data).out()).contains("the database is behind");
    try (ServiceProcess service = ServiceProcess.start(data)) {
      assertThat(Http.get(service.url(), "/readyz").statusCode()).isEqualTo(503);
      assertThat(Http.decide(service.url(), "knee-0", "k").statusCode()).isEqualTo(503);
    }
    assertThat(Run.of("restore", "--from", copy, "--data", data).err())
        .contains("has a record already");
    assertThat(Run.of("restore", "--from", folder.resolve("none"), "--data", early).err())
        .startsWith("evenside: there is no file");
    assertThat(Run.of("backup", "--data", other, "--to", folder.resolve("stopped")).exitCode())
        .isZero();
  }

  /** It restored into the folder, and then said that what is in the server holds. */
  @Test
  void restoreBesideADatabaseServer_isRefused() throws Exception {
    Path settings =
        Files.writeString(
            folder.resolve("settings"), "database-url = jdbc:postgresql://127.0.0.1:1/none\n");
    Path data = folder.resolve("none");
    Run run =
        Run.of("restore", "--settings", settings, "--data", data, "--from", folder.resolve("x"));
    assertThat(run.exitCode()).isEqualTo(Main.FAILED);
    assertThat(run.err()).contains("a database server", "restore to a folder");
    Run backup = Run.of("backup", "--settings", settings, "--to", folder.resolve("y"));
    assertThat(backup.err()).contains("a database server", "pg_dump");
    assertThat(folder.resolve("none")).doesNotExist();
    assertThat(Run.of("restore", "--help").out()).doesNotContain("--database-url");
  }

  @Test
  void copyThatCannotBeOpened_isNotLeftInTheFolder() throws Exception {
    Path copy = folder.resolve("junk.zip");
    try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(copy))) {
      zip.putNextEntry(new ZipEntry("../evenside.mv.db"));
      zip.putNextEntry(new ZipEntry("evenside.mv.db"));
      zip.write("no database".getBytes(StandardCharsets.US_ASCII));
    }
    Path data = folder.resolve("restored");
    Run restore = Run.of("restore", "--from", copy, "--data", data);
    assertThat(restore.exitCode()).isEqualTo(Main.FAILED);
    assertThat(restore.err()).contains("nothing was restored");
    assertThat(data).isEmptyDirectory();
  }

  @Test
  void record_isMovedToAServer_goesOnThere_andIsMovedBack() throws Exception {
    Path data = folder.resolve("data");
    Path back = folder.resolve("back");
    try (DatabaseServer server = new DatabaseServer(folder.resolve("pg"))) {
      Path early;
      try (ServiceProcess service = ServiceProcess.start(data)) {
        record(service.url(), 0);
        early = checkpoint(service.url(), "early");
      }
      Run moved = Run.of("move", "--data", data, "--database-url", server.url());
      assertThat(moved.exitCode()).as(moved.out() + moved.err()).isZero();
      assertThat(moved.out()).contains("ledger_checkpoint", "everything holds", "ledger.key");
      assertThat(Run.of("move", "--data", data, "--database-url", server.url()).err())
          .contains("must be empty");
      Path late;
      try (ServiceProcess service =
          ServiceProcess.start(
              data, "--database-url", server.url(), "--ledger-key", data.resolve("ledger.key"))) {
        record(service.url(), 2);
        late = checkpoint(service.url(), "late");
      }
      assertThat(
              Run.of("audit", "--database-url", server.url(), "--since", early, "--since", late)
                  .exitCode())
          .isZero();
      Run again = Run.of("move", "--back", "--data", back, "--database-url", server.url());
      assertThat(again.exitCode()).as(again.out() + again.err()).isZero();
      assertThat(Run.of("audit", "--data", back, "--since", late).exitCode()).isZero();
      // The copy that was left behind does not go on beside the moved one.
      try (ServiceProcess left = ServiceProcess.start(data)) {
        assertThat(Http.get(left.url(), "/readyz").statusCode()).isEqualTo(503);
      }
    }
    assertThat(Run.of("move", "--data", back).err()).contains("--database-url");
  }
}
