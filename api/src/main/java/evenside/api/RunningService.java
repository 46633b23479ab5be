package evenside.api;

import static evenside.api.settings.Catalogue.DEMO;
import static evenside.api.settings.Catalogue.HOST;
import static evenside.api.settings.Catalogue.LEDGER_KEY;
import static evenside.api.settings.Catalogue.LEDGER_NAME;
import static evenside.api.settings.Catalogue.PORT;
import static evenside.api.settings.Catalogue.SMALLEST_CELL;

import evenside.api.demo.DemoClinic;
import evenside.api.http.Authentication;
import evenside.api.http.Cursors;
import evenside.api.settings.Settings;
import evenside.ledger.Ledger;
import evenside.ledger.LedgerAudit;
import evenside.readiness.ReadinessService;
import evenside.schemas.Contract;
import evenside.store.Store;
import evenside.store.StoreSettings;
import io.javalin.Javalin;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The service with its store, running. The only place that puts the parts together. */
final class RunningService {
  private static final Logger LOG = LoggerFactory.getLogger(RunningService.class);

  private final Javalin app;
  private final Store store;
  private final Ledger ledger;
  private final String host;
  private final Place place;

  private RunningService(Javalin app, Store store, Ledger ledger, String host, Place place) {
    this.app = app;
    this.store = store;
    this.ledger = ledger;
    this.host = host;
    this.place = place;
  }

  /**
   * Opens the store and starts to listen.
   *
   * @throws evenside.api.settings.BadSettings if settings do not go together
   */
  static RunningService start(Settings settings) {
    settings.lines().forEach(line -> LOG.info("setting {}", line.inWords()));
    settings.strangeVariables().forEach(name -> LOG.warn("{} is no setting of ours", name));
    Place place = settings.get(DEMO) ? Place.ofDemo() : Place.of(settings);
    try {
      return start(settings, place);
    } catch (RuntimeException e) {
      place.leave();
      throw e;
    }
  }

  private static RunningService start(Settings settings, Place place) {
    // Reading the contract and opening the record have nothing to do with each other.
    CompletableFuture<Contract> contract = CompletableFuture.supplyAsync(Contract::published);
    Store store = Store.open(place.store());
    Ledger ledger = Ledger.off(store);
    try {
      Cursors cursors = new Cursors(CursorKey.in(place.folder()));
      Signing signing = new Signing(settings.get(LEDGER_NAME), settings.get(LEDGER_KEY));
      ledger = signing.open(store, place.folder(), place.embedded());
      ledger.prepare(place.clinic());
      ReadinessService service =
          ReadinessService.of(
              joined(contract), store, ledger, InstantSource.system(), settings.get(SMALLEST_CELL));
      if (place.demo()) {
        new DemoClinic(service, LocalDate.now(ZoneOffset.UTC)).record();
      }
      String host = settings.get(HOST);
      Authentication everybody = Authentication.none(place.clinic());
      Javalin app = Api.create(new Api.Dependencies(service, cursors, everybody));
      app.start(host, settings.get(PORT));
      CompletableFuture.runAsync(service.desk().contract()::prepare);
      return new RunningService(app, store, ledger, host, place);
    } catch (RuntimeException e) {
      ledger.close();
      store.close();
      throw e;
    }
  }

  private static Contract joined(CompletableFuture<Contract> contract) {
    try {
      return contract.join();
    } catch (CompletionException e) {
      throw e.getCause() instanceof RuntimeException broken ? broken : e;
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
    return "Evenside listens on " + url() + "\nThe record is in " + place.inWords() + proof;
  }

  /** Lets running requests end, then closes the store. */
  void stop() {
    app.stop();
    ledger.close();
    store.close();
    place.leave();
  }
}
