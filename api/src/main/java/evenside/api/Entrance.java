package evenside.api;

import static evenside.api.settings.Catalogue.AUTHENTICATION;
import static evenside.api.settings.Catalogue.DATABASE_URL;
import static evenside.api.settings.Catalogue.DEMO;
import static evenside.api.settings.Catalogue.HOST;
import static evenside.api.settings.Catalogue.HOST_NAMES;
import static evenside.api.settings.Catalogue.TLS_ENDS_IN_FRONT;
import static evenside.api.settings.Catalogue.TLS_KEY_STORE;
import static evenside.api.settings.Catalogue.TLS_KEY_STORE_PASSWORD;
import static evenside.api.settings.Catalogue.TOKEN_AUDIENCE;
import static evenside.api.settings.Catalogue.TOKEN_CLIENTS;
import static evenside.api.settings.Catalogue.TOKEN_ISSUER;
import static evenside.api.settings.Catalogue.TOKEN_KEYS;

import evenside.api.access.AccessTokens.Trusted;
import evenside.api.access.Source;
import evenside.api.server.Front;
import evenside.api.server.HostRule;
import evenside.api.server.Loopback;
import evenside.api.server.Tls;
import evenside.api.settings.BadSettings;
import evenside.api.settings.Settings;
import java.net.URI;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * How requests come in, and from whom. What would let strangers in by oversight does not start: an
 * address that others can reach needs authentication and TLS, or the word that TLS ends in front.
 *
 * @param host address to listen on
 * @param authenticated whether a request needs a bearer token
 * @param front what the server must know of this
 * @param trusted the authorization server whose tokens are taken, if one is
 */
record Entrance(String host, boolean authenticated, Front front, Optional<Trusted> trusted) {
  /**
   * The entrance that settings describe.
   *
   * @throws BadSettings with every fault, and what to set instead
   */
  static Entrance of(Settings settings) {
    List<String> faults = new ArrayList<>();
    checkAddress(settings, faults);
    checkDemo(settings, faults);
    Optional<Tls> tls = tls(settings, faults);
    Optional<Trusted> trusted = trusted(settings, faults);
    if (!faults.isEmpty()) {
      throw new BadSettings(faults);
    }
    boolean authenticated = settings.get(AUTHENTICATION);
    HostRule hosts =
        authenticated ? HostRule.withCredentials(settings.get(HOST_NAMES)) : HostRule.LOOPBACK;
    return new Entrance(settings.get(HOST), authenticated, new Front(hosts, tls), trusted);
  }

  /** Where the service is, seen from here. */
  String url(int port) {
    String name = host.contains(":") ? "[" + host + "]" : host;
    return (front.tls().isPresent() ? "https" : "http") + "://" + name + ":" + port;
  }

  private static void checkAddress(Settings settings, List<String> faults) {
    String host = settings.get(HOST);
    if (Loopback.isAddress(host)) {
      return;
    }
    String others = "host = " + host + " can be reached from other machines: ";
    if (!settings.get(AUTHENTICATION)) {
      faults.add(
          others
              + "set authentication = true and issue a key by the command keys, or listen on a"
              + " loopback address (127.0.0.1, ::1 or localhost)");
    }
    if (settings.get(TLS_KEY_STORE).isEmpty() && !settings.get(TLS_ENDS_IN_FRONT)) {
      faults.add(
          others
              + "set tls-key-store and tls-key-store-password, or tls-ends-in-front = true if a proxy"
              + " in front speaks TLS and nobody can bypass it");
    }
  }

  private static void checkDemo(Settings settings, List<String> faults) {
    if (!settings.get(DEMO)) {
      return;
    }
    if (settings.get(DATABASE_URL).isPresent()) {
      faults.add("demo keeps its invented clinic in a folder of its own: leave out database-url");
    }
    if (settings.get(AUTHENTICATION)) {
      faults.add("demo is open to everyone on this machine: leave out authentication");
    }
  }

  private static final String WITHOUT_PASSWORD = ", with tls-key-store-password not set";

  private static Optional<Tls> tls(Settings settings, List<String> faults) {
    Optional<Tls> tls =
        settings
            .get(TLS_KEY_STORE)
            .map(file -> new Tls(file, settings.get(TLS_KEY_STORE_PASSWORD)));
    if (tls.isPresent() && settings.get(TLS_ENDS_IN_FRONT)) {
      faults.add("tls-key-store and tls-ends-in-front = true contradict each other: set one");
    }
    String hint = settings.get(TLS_KEY_STORE_PASSWORD).isEmpty() ? WITHOUT_PASSWORD : "";
    attempt(faults, "tls-key-store" + hint + ": ", () -> tls.ifPresent(Tls::check));
    return tls;
  }

  private static Optional<Trusted> trusted(Settings settings, List<String> faults) {
    List<String> missing = new ArrayList<>();
    List.of(TOKEN_ISSUER, TOKEN_AUDIENCE, TOKEN_KEYS, TOKEN_CLIENTS).stream()
        .filter(setting -> settings.get(setting).isEmpty())
        .forEach(setting -> missing.add(setting.name()));
    if (missing.size() == 4) {
      return Optional.empty();
    }
    if (!missing.isEmpty()) {
      faults.add("access tokens need " + String.join(", ", missing) + " too");
      return Optional.empty();
    }
    if (!settings.get(AUTHENTICATION)) {
      faults.add("access tokens are taken only where authentication = true is set");
    }
    List<Source> keys = new ArrayList<>();
    String place = settings.get(TOKEN_KEYS).orElseThrow();
    attempt(faults, "token-keys: ", () -> keys.add(source(place)));
    Path clients = settings.get(TOKEN_CLIENTS).orElseThrow();
    return keys.stream()
        .findFirst()
        .map(
            source ->
                new Trusted(
                    settings.get(TOKEN_ISSUER).orElseThrow(),
                    settings.get(TOKEN_AUDIENCE).orElseThrow(),
                    source,
                    Source.file(clients)));
  }

  private static Source source(String place) {
    return place.matches("[a-zA-Z]{2,}://.*")
        ? Source.url(URI.create(place))
        : Source.file(Path.of(place));
  }

  private static void attempt(List<String> faults, String place, Runnable step) {
    try {
      step.run();
    } catch (IllegalArgumentException e) {
      faults.add(place + e.getMessage());
    }
  }
}
