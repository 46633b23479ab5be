package evenside.api;

import evenside.api.demo.DemoClinic;
import evenside.api.http.Authentication;
import evenside.api.http.Cursors;
import evenside.ledger.Ledger;
import evenside.ledger.LedgerAudit;
import evenside.readiness.Cohorts;
import evenside.readiness.ReadinessService;
import evenside.schemas.Contract;
import evenside.store.Store;
import evenside.store.StoreSettings;
import io.javalin.Javalin;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** The service with its store, running. The only place that puts the parts together. */
final class RunningService {
  /** The one clinic of a service without credentials. */
  private static final String LOCAL = "local";

  private final Javalin app;
  private final Store store;
  private final Ledger ledger;
  private final String host;
  private final String record;
  private final Runnable afterwards;

  private RunningService(
      Javalin app, Store store, Ledger ledger, String host, String record, Runnable afterwards) {
    this.app = app;
    this.store = store;
    this.ledger = ledger;
    this.host = host;
    this.record = record;
    this.afterwards = afterwards;
  }

  /**
   * Opens the store and starts to listen.
   *
   * @param host loopback address
   * @param port port; 0 takes a free one
   * @param data data folder; holds the record unless a database is named, and the checkpoints of
   *     the ledger
   * @param database the database that holds the record instead
   * @param signing name and key of the ledger
   * @param smallestCell fewest people a count of a cohort may show
   */
  static RunningService start(
      String host,
      int port,
      Path data,
      Optional<StoreSettings> database,
      Signing signing,
      int smallestCell) {
    Store store = Store.open(database.orElseGet(() -> StoreSettings.inFolder(data)));
    Ledger ledger = Ledger.off(store);
    try {
      Cursors cursors = new Cursors(CursorKey.in(data));
      ledger = signing.open(store, data, database.isEmpty());
      ledger.prepare(LOCAL);
      ReadinessService service = service(store, ledger, smallestCell);
      Javalin app =
          listen(new Api.Dependencies(service, cursors, Authentication.none(LOCAL)), host, port);
      String record = database.isPresent() ? "a database server" : data.toString();
      return new RunningService(app, store, ledger, host, record, () -> {});
    } catch (RuntimeException e) {
      ledger.close();
      store.close();
      throw e;
    }
  }

  /** Checks the record in a data folder against its ledger; the service must be stopped. */
  static List<String> audit(Path data, String clinic) {
    if (!Files.isDirectory(data)) {
      throw new IllegalArgumentException("there is no data folder " + data);
    }
    try (Store store = Store.open(StoreSettings.inFolder(data))) {
      return LedgerAudit.of(store, clinic);
    }
  }

  /** Starts with the invented clinic, in a temporary folder that goes when the service stops. */
  static RunningService startDemo(String host, int port) {
    Path folder = temporaryFolder();
    Store store = Store.open(StoreSettings.inFolder(folder));
    Ledger ledger = Ledger.off(store);
    try {
      ledger = Signing.DEFAULT.open(store, folder, true);
      ReadinessService service = service(store, ledger, Cohorts.SMALLEST_CELL);
      new DemoClinic(service, LocalDate.now(ZoneOffset.UTC)).record();
      Cursors cursors = new Cursors(CursorKey.random());
      Javalin app =
          listen(
              new Api.Dependencies(service, cursors, Authentication.none(DemoClinic.NAME)),
              host,
              port);
      String record = "an invented demonstration clinic, gone when the service stops";
      return new RunningService(app, store, ledger, host, record, () -> delete(folder));
    } catch (RuntimeException e) {
      ledger.close();
      store.close();
      delete(folder);
      throw e;
    }
  }

  /** Where it listens. */
  String url() {
    String name = host.contains(":") ? "[" + host + "]" : host;
    return "http://" + name + ":" + app.port();
  }

  /** What a person who started it wants to know. */
  String greeting() {
    String proof =
        ledger.on()
            ? ""
            : "\nThe ledger is off: nothing recorded now can be proved later. Name a key by"
                + " --ledger-key.";
    return "Evenside listens on " + url() + "\nThe record is in " + record + proof;
  }

  /** Lets running requests end, then closes the store. */
  void stop() {
    app.stop();
    ledger.close();
    store.close();
    afterwards.run();
  }

  private static ReadinessService service(Store store, Ledger ledger, int smallestCell) {
    return ReadinessService.of(
        Contract.published(), store, ledger, InstantSource.system(), smallestCell);
  }

  private static Javalin listen(Api.Dependencies dependencies, String host, int port) {
    return Api.create(dependencies).start(host, port);
  }

  private static Path temporaryFolder() {
    try {
      return Files.createTempDirectory("evenside-demo");
    } catch (IOException e) {
      throw new UncheckedIOException("cannot make a temporary folder", e);
    }
  }

  static void delete(Path folder) {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(file);
      }
    } catch (IOException e) {
      throw new UncheckedIOException("cannot delete " + folder, e);
    }
  }
}
