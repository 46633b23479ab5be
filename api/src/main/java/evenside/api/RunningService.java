package evenside.api;

import static evenside.api.settings.Catalogue.DEMO;
import static evenside.api.settings.Catalogue.FHIR_SNOMED;
import static evenside.api.settings.Catalogue.LEDGER_KEY;
import static evenside.api.settings.Catalogue.LEDGER_NAME;
import static evenside.api.settings.Catalogue.PUBLIC_URL;
import static evenside.api.settings.Catalogue.SMALLEST_CELL;
import static evenside.api.settings.Catalogue.WEBHOOKS;
import static evenside.api.settings.Catalogue.WEBHOOK_DAYS;
import static evenside.api.settings.Catalogue.WEBHOOK_QUEUE;

import evenside.api.access.AccessTokens;
import evenside.api.access.ApiKeys;
import evenside.api.access.Authentication;
import evenside.api.access.BearerTokens;
import evenside.api.access.TokenKind;
import evenside.api.bulk.JobWorker;
import evenside.api.demo.DemoClinic;
import evenside.api.http.Cursors;
import evenside.api.settings.Settings;
import evenside.api.webhook.Target;
import evenside.api.webhook.Targets;
import evenside.api.webhook.Webhooks;
import evenside.clients.ClientKeys;
import evenside.ledger.Ledger;
import evenside.readiness.ReadinessService;
import evenside.schemas.Contract;
import evenside.store.Store;
import java.time.Duration;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.stream.Collectors;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The service with its store, running. The only place that puts the parts together. */
public final class RunningService {
  private static final Logger LOG = LoggerFactory.getLogger(RunningService.class);

  private final Servers servers;
  private final Store store;
  private final Ledger ledger;
  private final Entrance entrance;
  private final Place place;
  private final List<AutoCloseable> beside;

  private RunningService(
      Servers servers,
      Store store,
      Ledger ledger,
      Entrance entrance,
      Place place,
      List<AutoCloseable> beside) {
    this.servers = servers;
    this.store = store;
    this.ledger = ledger;
    this.entrance = entrance;
    this.place = place;
    this.beside = List.copyOf(beside);
  }

  /**
   * Refuses settings that no service could start with, and starts none.
   *
   * @throws evenside.api.settings.BadSettings if settings do not go together
   */
  public static void check(Settings settings) {
    Entrance.of(settings);
  }

  /**
   * Opens the store and starts to listen.
   *
   * @throws evenside.api.settings.BadSettings if settings do not go together
   */
  public static RunningService start(Settings settings) {
    settings.lines().stream()
        .filter(Settings.Line::isGiven)
        .forEach(line -> LOG.info("setting {}", line.inWords()));
    settings
        .strangeVariables()
        .forEach(name -> LOG.warn("{} is not a setting of Evenside and has no effect", name));
    Entrance entrance = Entrance.of(settings);
    Place place = settings.get(DEMO) ? Place.ofDemo() : Place.of(settings);
    try {
      return start(settings, entrance, place);
    } catch (RuntimeException e) {
      place.leave();
      throw e;
    }
  }

  private static RunningService start(Settings settings, Entrance entrance, Place place) {
    List<Target> targets = settings.get(WEBHOOKS).map(Targets::read).orElse(List.of());
    Set<String> told = targets.stream().map(Target::clinic).collect(Collectors.toSet());
    // Reading the contract and opening the record have nothing to do with each other.
    CompletableFuture<Contract> contract = CompletableFuture.supplyAsync(Contract::published);
    Store store = Store.open(place.store());
    Ledger ledger = Ledger.off(store);
    try {
      Signing signing = new Signing(settings.get(LEDGER_NAME), settings.get(LEDGER_KEY));
      Cursors cursors = new Cursors(signing.cursorKey(place.folder()));
      ledger = signing.open(store, place.folder(), place.embedded());
      Authentication authentication = authentication(entrance, place, store, ledger);
      ReadinessService service =
          ReadinessService.of(
              joined(contract),
              store,
              ledger,
              InstantSource.system(),
              settings.get(SMALLEST_CELL),
              told::contains);
      if (place.demo()) {
        new DemoClinic(service, LocalDate.now(ZoneOffset.UTC)).record();
      }
      Operations operations =
          new Watch(store, ledger, signing, place, InstantSource.system())
              .operations(service, settings, entrance.authenticated());
      Api.Exchange exchange = new Api.Exchange(settings.get(FHIR_SNOMED), settings.get(PUBLIC_URL));
      Servers servers =
          Servers.start(
              new Api.Dependencies(service, cursors, authentication, exchange, operations),
              entrance,
              settings);
      List<AutoCloseable> beside = new ArrayList<>(beside(service, store, place));
      if (!targets.isEmpty()) {
        beside.add(webhooks(settings, service, targets));
      }
      prepare(service.desk().contract());
      return new RunningService(servers, store, ledger, entrance, place, beside);
    } catch (RuntimeException e) {
      ledger.close();
      store.close();
      throw e;
    }
  }

  /** Beside the first requests: what words faults takes longest to make ready. */
  private static void prepare(Contract contract) {
    Thread beside = new Thread(contract::prepare, "prepare");
    beside.setDaemon(true);
    beside.start();
  }

  private static Contract joined(CompletableFuture<Contract> contract) {
    try {
      return contract.join();
    } catch (CompletionException e) {
      throw e.getCause() instanceof RuntimeException broken ? broken : e;
    }
  }

  /** What works beside the requests. */
  private static List<AutoCloseable> beside(ReadinessService service, Store store, Place place) {
    JobWorker jobs = JobWorker.start(service, JobWorker.TURN);
    return place.embedded()
        ? List.of(jobs, BackupRequests.answering(place.folder(), store::backUp))
        : List.of(jobs);
  }

  private static Webhooks webhooks(
      Settings settings, ReadinessService service, List<Target> targets) {
    return Webhooks.start(
        service.announcements(),
        targets,
        InstantSource.system(),
        Duration.ofDays(settings.get(WEBHOOK_DAYS)),
        settings.get(WEBHOOK_QUEUE));
  }

  /** The ledger of a clinic starts before its first record: so its key is published first. */
  private static Authentication authentication(
      Entrance entrance, Place place, Store store, Ledger ledger) {
    if (!entrance.authenticated()) {
      ledger.prepare(place.clinic());
      return Authentication.none(place.clinic());
    }
    InstantSource clock = InstantSource.system();
    List<TokenKind> kinds = new ArrayList<>();
    kinds.add(new ApiKeys(new ClientKeys(store, clock), clock));
    entrance.trusted().ifPresent(server -> kinds.add(AccessTokens.of(server, clock)));
    return new BearerTokens(kinds, ledger::prepare);
  }

  /** Where it listens. */
  public String url() {
    return servers.url();
  }

  /** What a person who started it wants to know. */
  public String greeting() {
    String proof =
        ledger.on()
            ? ""
            : "\nThe ledger is off: nothing recorded now can be proved later. Name a key by"
                + " --ledger-key.";
    String callers =
        entrance.authenticated()
            ? "\nRequests need a bearer token; the command keys issue makes one."
            : "";
    return "Evenside listens on "
        + url()
        + "\nThe record is in "
        + place.inWords()
        + callers
        + proof;
  }

  /** Says so, lets running requests end, then closes the store. */
  public void stop() {
    servers.stop();
    beside.forEach(RunningService::close);
    ledger.close();
    store.close();
    place.leave();
  }

  private static void close(AutoCloseable part) {
    try {
      part.close();
    } catch (Exception e) {
      LOG.warn("could not close {}: {}", part.getClass().getSimpleName(), e.getMessage());
    }
  }
}
