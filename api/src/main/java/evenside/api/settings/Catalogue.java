package evenside.api.settings;

import static evenside.api.settings.Setting.number;
import static evenside.api.settings.Setting.optionalPath;
import static evenside.api.settings.Setting.optionalText;
import static evenside.api.settings.Setting.path;
import static evenside.api.settings.Setting.text;
import static evenside.api.settings.Setting.yes;

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
      declare(text("host", "ADDRESS", "127.0.0.1", "Address to listen on; a loopback address."));
  public static final Setting<Integer> PORT =
      declare(number("port", 8080, 0, 65_535, "Port to listen on; 0 takes a free one."));

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
      declare(text("database-password", "WORD", "", "Password of the database server.").secretly());
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
              "Days after which a receiver is no more told of a decision."));
  public static final Setting<Integer> WEBHOOK_QUEUE =
      declare(
          number(
              "webhook-queue",
              10_000,
              1,
              10_000_000,
              "Decisions of a clinic that its receiver is still to be told of, at most."));

  // What is answered.
  public static final Setting<Integer> SMALLEST_CELL =
      declare(
          number(
              "smallest-cell",
              5,
              1,
              Integer.MAX_VALUE,
              "Fewest people a count of a cohort may show; 1 hides nothing."));

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
