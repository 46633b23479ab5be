package evenside.api;

import evenside.api.http.Loopback;
import evenside.ledger.LedgerSettings;
import evenside.store.StoreSettings;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Starts the service, which then runs until it is told to stop. */
@Command(
    name = "serve",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    description = "Start the service.",
    footer = {
      "",
      "The environment may name a database server instead of options: EVENSIDE_DATABASE_URL,",
      "EVENSIDE_DATABASE_USER, EVENSIDE_DATABASE_PASSWORD."
    })
final class ServeCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Option(
      names = "--port",
      paramLabel = "N",
      defaultValue = "8080",
      description = "Port to listen on; 0 takes a free one. Default: ${DEFAULT-VALUE}.")
  private int port;

  @Option(
      names = "--host",
      paramLabel = "ADDRESS",
      defaultValue = "127.0.0.1",
      description = "Address to listen on; a loopback address. Default: ${DEFAULT-VALUE}.")
  private String host = "";

  @Option(
      names = "--data",
      paramLabel = "DIR",
      defaultValue = "data",
      description =
          "Data folder of the record; made if it is not there. Default: ${DEFAULT-VALUE}.")
  private Path data = Path.of("");

  @Option(
      names = "--database-url",
      paramLabel = "URL",
      defaultValue = "${env:EVENSIDE_DATABASE_URL}",
      description = "JDBC URL of a PostgreSQL server that keeps the record instead.")
  private @Nullable String databaseUrl;

  @Option(
      names = "--smallest-cell",
      paramLabel = "N",
      defaultValue = "5",
      description =
          "Fewest people a count of a cohort may show; 1 hides nothing. Default:"
              + " ${DEFAULT-VALUE}.")
  private int smallestCell;

  @Option(
      names = "--ledger-key",
      paramLabel = "FILE",
      defaultValue = "${env:EVENSIDE_LEDGER_KEY}",
      description =
          "Private key that signs the ledger (PKCS#8, mode 0600). With --database-url the ledger is"
              + " off without it; otherwise a key is made once in the data folder.")
  private @Nullable Path ledgerKey;

  @Option(
      names = "--ledger-name",
      paramLabel = "NAME",
      defaultValue = LedgerSettings.DEFAULT_NAME,
      description = "Start of the name of each clinic's ledger. Default: ${DEFAULT-VALUE}.")
  private String ledgerName = "";

  @Option(
      names = "--demo",
      description =
          "Serve an invented clinic of a dozen cases, kept until the service stops; --data is not"
              + " touched.")
  private boolean demo;

  @Override
  public Integer call() {
    if (port < 0 || port > 65_535) {
      throw usage("--port takes a number from 0 to 65535, not " + port + ".");
    }
    if (smallestCell < 1) {
      throw usage("--smallest-cell takes a number from 1 on, not " + smallestCell + ".");
    }
    if (!Loopback.isAddress(host)) {
      throw usage(
          "--host must be a loopback address (127.0.0.1, ::1 or localhost): the service has no"
              + " authentication yet, so it must not listen on any other address.");
    }
    if (demo && databaseUrl != null) {
      throw usage("--demo keeps its invented clinic by itself and takes no --database-url.");
    }
    RunningService running =
        demo
            ? RunningService.startDemo(host, port)
            : RunningService.start(
                host,
                port,
                data,
                database(),
                new Signing(ledgerName, Optional.ofNullable(ledgerKey)),
                smallestCell);
    Runtime.getRuntime().addShutdownHook(new Thread(running::stop, "stop"));
    spec.commandLine().getOut().println(running.greeting());
    spec.commandLine().getOut().flush();
    return Main.OK;
  }

  private Optional<StoreSettings> database() {
    return Optional.ofNullable(databaseUrl)
        .map(
            url ->
                StoreSettings.at(
                    url,
                    environment("EVENSIDE_DATABASE_USER"),
                    environment("EVENSIDE_DATABASE_PASSWORD")));
  }

  private static String environment(String name) {
    String value = System.getenv(name);
    return value == null ? "" : value;
  }

  private ParameterException usage(String message) {
    return new ParameterException(spec.commandLine(), message);
  }
}
