package evenside.api.settings;

import static evenside.api.settings.Setting.choice;
import static evenside.api.settings.Setting.list;
import static evenside.api.settings.Setting.number;
import static evenside.api.settings.Setting.optionalNumber;
import static evenside.api.settings.Setting.optionalPath;
import static evenside.api.settings.Setting.optionalText;
import static evenside.api.settings.Setting.path;
import static evenside.api.settings.Setting.text;
import static evenside.api.settings.Setting.yes;

import evenside.api.log.LogForm;
import evenside.ledger.LedgerSettings;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Every setting of the service. A line here is a setting in files, environment and flags. */
public final class Catalogue {
  private static final List<Setting<?>> DECLARED = new ArrayList<>();

  // Where it listens.
  public static final Setting<String> HOST =
      declare(text("host", "ADDRESS", "127.0.0.1", "Address to listen on."));
  public static final Setting<Integer> PORT =
      declare(number("port", 8080, 0, 65_535, "Port to listen on; 0 picks a free one."));

  public static final Setting<List<String>> HOST_NAMES =
      declare(
          list(
              "host-names",
              "NAME,...",
              "Host names by which clients call, beside localhost. Without it, any name is answered"
                  + " if authentication is on, and no other if it is off."));
  public static final Setting<Optional<Path>> TLS_KEY_STORE =
      declare(
          optionalPath(
              "tls-key-store",
              "FILE",
              "Key store (PKCS#12) with the certificate of the service and its private key. Its"
                  + " password is EVENSIDE_TLS_KEY_STORE_PASSWORD in the environment, or stands in"
                  + " the settings file."));
  public static final Setting<String> TLS_KEY_STORE_PASSWORD =
      declare(
          text("tls-key-store-password", "PASSWORD", "", "Password of the key store.").secretly());
  public static final Setting<Boolean> TLS_ENDS_IN_FRONT =
      declare(
          yes(
              "tls-ends-in-front",
              "Speak plain HTTP on an address that is not a loopback address, because a proxy in"
                  + " front speaks TLS and nobody can bypass it."));

  // Who may call.
  public static final Setting<Boolean> AUTHENTICATION =
      declare(
          yes(
              "authentication",
              "Take only requests with a bearer token: a key made by the command keys, or an access"
                  + " token. Any address but a loopback address needs it."));
  public static final Setting<Optional<String>> TOKEN_ISSUER =
      declare(
          optionalText(
              "token-issuer",
              "URL",
              "Authorization server whose access tokens (RFC 9068) are taken, exactly as in iss."));
  public static final Setting<Optional<String>> TOKEN_AUDIENCE =
      declare(
          optionalText("token-audience", "NAME", "Name of this service in aud of access tokens."));
  public static final Setting<Optional<String>> TOKEN_KEYS =
      declare(
          optionalText(
              "token-keys", "FILE|URL", "JWK set of the authorization server: a file or a URL."));
  public static final Setting<Optional<Path>> TOKEN_CLIENTS =
      declare(
          optionalPath(
              "token-clients",
              "FILE",
              "JSON file that says which clinic each client of the authorization server is of."));

  // The record.
  public static final Setting<Path> DATA =
      declare(path("data", "DIR", "data", "Data folder of the record; made if it is not there."));
  public static final Setting<Optional<String>> DATABASE_URL =
      declare(
          optionalText(
                  "database-url",
                  "URL",
                  "JDBC URL of a PostgreSQL server that keeps the record instead.")
              .shownAs(Catalogue::withoutCredentials));
  public static final Setting<String> DATABASE_USER =
      declare(text("database-user", "NAME", "", "User of the database server."));
  public static final Setting<String> DATABASE_PASSWORD =
      declare(
          text("database-password", "PASSWORD", "", "Password of the database server.").secretly());
  public static final Setting<Boolean> WEAK_DURABILITY =
      declare(
          yes(
              "weak-durability",
              "Open also a database that does not wait for the disk: after a power cut, records that"
                  + " were acknowledged may be gone. For trials only; the log warns at each start."));
  public static final Setting<Boolean> DEMO =
      declare(
          yes(
              "demo",
              "Serve an invented clinic of a dozen cases, kept until the service stops; --data is"
                  + " not touched."));

  // The ledger.
  public static final Setting<Optional<Path>> LEDGER_KEY =
      declare(
          optionalPath(
              "ledger-key",
              "FILE",
              "Private key that signs the ledger (PKCS#8, mode 0600). With --database-url the ledger"
                  + " is off without it; otherwise a key is made once in the data folder."));
  public static final Setting<String> LEDGER_NAME =
      declare(
          text(
              "ledger-name",
              "NAME",
              LedgerSettings.DEFAULT_NAME,
              "Start of the name of each clinic's ledger."));

  // Who is told of decisions.
  public static final Setting<Optional<Path>> WEBHOOKS =
      declare(
          optionalPath(
              "webhooks",
              "FILE",
              "File of receivers (mode 0600), a line for each clinic: clinic, URL, name of the secret,"
                  + " secret in base64."));
  public static final Setting<Integer> WEBHOOK_DAYS =
      declare(
          number(
              "webhook-days",
              7,
              1,
              365,
              "Days after which a receiver is no longer told of a decision."));
  public static final Setting<Integer> WEBHOOK_QUEUE =
      declare(
          number(
              "webhook-queue",
              10_000,
              1,
              10_000_000,
              "Most decisions of a clinic that may wait for its receiver."));

  // What is answered.
  public static final Setting<Integer> SMALLEST_CELL =
      declare(
          number(
              "smallest-cell",
              5,
              1,
              Integer.MAX_VALUE,
              "Fewest people that a shown count of a cohort may have; 1 hides nothing."));
  public static final Setting<Boolean> FHIR_SNOMED =
      declare(
          yes(
              "fhir-snomed",
              "Write SNOMED CT codes beside ours in FHIR documents; the operator needs a licence."));
  public static final Setting<Optional<String>> PUBLIC_URL =
      declare(
          optionalText(
              "public-url",
              "URL",
              "Address that clients reach the service by, for the links of CDS Hooks cards; without"
                  + " it the Host header of the request is taken."));

  // What a client may ask of it.
  public static final Setting<Optional<Integer>> RATE_LIMIT =
      declare(
          optionalNumber(
              "rate-limit",
              0,
              1_000_000,
              "Requests a second that one client may send in the long run; 0 for any number."
                  + " Default: 100 where clients have credentials, else any number."));
  public static final Setting<Integer> RATE_BURST =
      declare(
          number("rate-burst", 200, 1, 1_000_000, "Requests that one client may send at once."));
  public static final Setting<Integer> CONNECTIONS =
      declare(
          number("connections", 200, 1, 100_000, "Most connections at once; further ones wait."));
  public static final Setting<Integer> IDLE_SECONDS =
      declare(number("idle-seconds", 30, 1, 3600, "How long a connection may be idle."));
  public static final Setting<Integer> REQUEST_SECONDS =
      declare(
          number(
              "request-seconds",
              60,
              1,
              3600,
              "How long one request may take, from its first byte to the last of its answer."));

  // How it is run.
  public static final Setting<Optional<Integer>> MANAGEMENT_PORT =
      declare(
          optionalNumber(
              "management-port",
              0,
              65_535,
              "Port of the loopback address for /metrics, /livez and /readyz, without credentials;"
                  + " 0 picks a free one. Without it /metrics is on the main port, for the scope"
                  + " metrics:read."));
  public static final Setting<Integer> DRAIN_SECONDS =
      declare(
          number(
              "drain-seconds",
              1,
              0,
              600,
              "How long a stopping service still takes requests after /readyz says 503; longer"
                  + " than whoever asks /readyz takes to notice."));
  public static final Setting<Integer> STOP_SECONDS =
      declare(number("stop-seconds", 10, 1, 600, "How long running requests may take after that."));
  public static final Setting<LogForm> LOG_FORM =
      declare(
          choice(
              "log-form",
              LogForm.JSON,
              "How the log looks: json is an object a line, plain is for a person at a terminal."));

  private Catalogue() {}

  /** All of them, in the order of their declaration. */
  public static List<Setting<?>> all() {
    return List.copyOf(DECLARED);
  }

  private static <T> Setting<T> declare(Setting<T> setting) {
    DECLARED.add(setting);
    return setting;
  }

  /** A user and password can stand before the host, and any secret among the options. */
  private static String withoutCredentials(String url) {
    return url.replaceFirst("(?<=//)[^/]*@", "").split("[;?]", 2)[0];
  }
}
