package evenside.api;

import static evenside.api.settings.Catalogue.DRAIN_SECONDS;
import static evenside.api.settings.Catalogue.MANAGEMENT_PORT;
import static evenside.api.settings.Catalogue.PORT;

import evenside.api.settings.Settings;
import io.javalin.Javalin;
import java.time.Duration;
import java.util.Optional;

/** What listens: the service, and beside it the management port, if there is one. */
final class Servers {
  private static final String LOOPBACK = "127.0.0.1";

  private final Javalin main;
  private final Optional<Javalin> management;
  private final Entrance entrance;
  private final Operations operations;
  private final Duration drain;

  private Servers(
      Javalin main,
      Optional<Javalin> management,
      Entrance entrance,
      Operations operations,
      Duration drain) {
    this.main = main;
    this.management = management;
    this.entrance = entrance;
    this.operations = operations;
    this.drain = drain;
  }

  static Servers start(Api.Dependencies dependencies, Entrance entrance, Settings settings) {
    Optional<Javalin> management =
        settings
            .get(MANAGEMENT_PORT)
            .map(port -> Api.createManagement(dependencies).start(LOOPBACK, port));
    try {
      Javalin main =
          Api.create(dependencies, entrance.front()).start(entrance.host(), settings.get(PORT));
      return new Servers(
          main,
          management,
          entrance,
          dependencies.operations(),
          Duration.ofSeconds(settings.get(DRAIN_SECONDS)));
    } catch (RuntimeException e) {
      management.ifPresent(Javalin::stop);
      throw e;
    }
  }

  String url() {
    return entrance.url(main.port());
  }

  /**
   * First says that it is about to stop, so that nobody sends more here; then takes no more
   * connections and lets running requests end; whoever watches can ask until then.
   */
  void stop() {
    operations.draining().begin();
    try {
      Thread.sleep(drain.toMillis());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    main.stop();
    management.ifPresent(Javalin::stop);
    operations.metrics().close();
  }
}
