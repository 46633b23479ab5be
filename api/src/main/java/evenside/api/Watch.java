package evenside.api;

import static evenside.api.settings.Catalogue.CONNECTIONS;
import static evenside.api.settings.Catalogue.IDLE_SECONDS;
import static evenside.api.settings.Catalogue.MANAGEMENT_PORT;
import static evenside.api.settings.Catalogue.RATE_BURST;
import static evenside.api.settings.Catalogue.RATE_LIMIT;
import static evenside.api.settings.Catalogue.REQUEST_SECONDS;
import static evenside.api.settings.Catalogue.STOP_SECONDS;

import evenside.api.http.RateLimit;
import evenside.api.metrics.Metrics;
import evenside.api.resource.Check;
import evenside.api.server.Draining;
import evenside.api.server.ServerLimits;
import evenside.api.settings.Settings;
import evenside.ledger.Ledger;
import evenside.readiness.ReadinessService;
import evenside.store.Store;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;

/** Puts together how a running service is watched. */
final class Watch {
  /** No record of ours is older, so no clock can be right that is. */
  private static final Instant FIRST_RELEASE = Instant.parse("2026-01-01T00:00:00Z");

  /** Beyond this a clock is far off: what is recorded by it would mislead. */
  private static final Duration CLOCK_TOLERANCE = Duration.ofMinutes(2);

  private static final int LEDGERS_AT_ONCE = 20;

  /** Requests a second of one client. */
  private static final int USUAL_RATE = 100;

  private final Store store;
  private final Ledger ledger;
  private final Signing signing;
  private final Place place;
  private final InstantSource clock;

  Watch(Store store, Ledger ledger, Signing signing, Place place, InstantSource clock) {
    this.store = store;
    this.ledger = ledger;
    this.signing = signing;
    this.place = place;
    this.clock = clock;
  }

  /**
   * All of it, as the settings have it.
   *
   * @param credentials whether clients have credentials: only then one can be told from another,
   *     and is held to a rate where the settings name none
   */
  Operations operations(ReadinessService service, Settings settings, boolean credentials) {
    Draining draining = new Draining();
    return new Operations(
        checks(service, draining),
        metrics(),
        settings.get(MANAGEMENT_PORT).isPresent(),
        draining,
        new ServerLimits(
            settings.get(CONNECTIONS),
            Duration.ofSeconds(settings.get(IDLE_SECONDS)),
            Duration.ofSeconds(settings.get(REQUEST_SECONDS)),
            Duration.ofSeconds(settings.get(STOP_SECONDS))),
        rateLimit(settings, credentials));
  }

  private static RateLimit rateLimit(Settings settings, boolean credentials) {
    int perSecond = settings.get(RATE_LIMIT).orElse(credentials ? USUAL_RATE : 0);
    return perSecond == 0
        ? RateLimit.NONE
        : new RateLimit(perSecond, settings.get(RATE_BURST), System::nanoTime);
  }

  private List<Check> checks(ReadinessService service, Draining draining) {
    String key = signing.keyId(place.folder(), place.embedded());
    List<Check> checks = new ArrayList<>();
    checks.add(new Check("The service is stopping.", () -> !draining.begun()));
    checks.add(new Check("The database does not answer.", service::storeAnswers));
    checks.add(
        new Check(
            "A ledger takes no entries; the log says why.", () -> ledger.trouble().isEmpty()));
    checks.add(
        new Check(
            "The database does not hold what the ledger signed last.",
            () -> ledger.holdsSigned(LEDGERS_AT_ONCE)));
    checks.add(
        new Check(
            "The key of the ledger is not in its place.",
            () -> signing.keyInPlace(place.folder(), place.embedded(), key)));
    checks.add(new Check("The clock of the machine is far off.", this::clockIsRight));
    return checks;
  }

  /**
   * Compared with the newest entry of the record, and with the clock of the database server. An
   * embedded store has no clock of its own, so there a clock that is ahead goes unnoticed.
   */
  private boolean clockIsRight() {
    Instant now = clock.instant();
    Instant newest = ledger.newestEntry().orElse(FIRST_RELEASE);
    boolean behind = now.isBefore(newest.minus(CLOCK_TOLERANCE)) || now.isBefore(FIRST_RELEASE);
    boolean apart =
        !place.embedded()
            && Duration.between(store.read(reading -> reading.clock()), now)
                    .abs()
                    .compareTo(CLOCK_TOLERANCE)
                > 0;
    return !behind && !apart;
  }

  private Metrics metrics() {
    Metrics metrics = new Metrics();
    metrics.show(
        "evenside.store.connections.busy",
        "Connections to the database that serve a transaction",
        () -> store.poolUse().busy());
    metrics.show(
        "evenside.store.connections.idle",
        "Connections to the database that wait for a transaction",
        () -> store.poolUse().idle());
    metrics.show(
        "evenside.store.waiting",
        "Transactions that wait for a connection",
        () -> store.poolUse().waiting());
    metrics.count(
        "evenside.ledger.entries",
        "Entries that this process has added to the ledgers",
        ledger,
        Ledger::appended);
    return metrics;
  }
}
