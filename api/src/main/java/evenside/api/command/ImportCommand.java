package evenside.api.command;

import evenside.api.RunningService;
import evenside.api.bulk.BulkClient;
import evenside.api.bulk.Importer;
import evenside.api.settings.Catalogue;
import evenside.api.settings.Settings;
import java.io.PrintWriter;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Records a file of lines. */
@Command(
    name = "import",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    description =
        "Record a file with one record a line, as POST /v1/bulk takes them. An import that was"
            + " broken off goes on where it stopped when it is started again; no line is recorded"
            + " twice. Lines that were refused are written beside the file, with their faults.",
    footer = {
      "",
      "A service that asks for credentials gets the bearer token in the environment variable"
          + " EVENSIDE_IMPORT_TOKEN."
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:every line is recorded",
      "1:some lines were refused",
      "2:broken off; start it again to go on"
    })
final class ImportCommand implements Callable<Integer> {
  private static final Duration PAUSE = Duration.ofMillis(500);
  private static final long TELL_EVERY_NANOS = Duration.ofSeconds(1).toNanos();

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FILE", description = "The lines.")
  private Path file = Path.of("");

  @ArgGroup(multiplicity = "1")
  private Target target = new Target();

  private long started;
  private long told;

  /** Where the lines go. */
  static final class Target {
    @Option(names = "--to", paramLabel = "URL", description = "Address of a running service.")
    private @Nullable URI url;

    @Option(
        names = "--data",
        paramLabel = "DIR",
        description = "A data folder whose service is stopped.")
    private @Nullable Path data;
  }

  @Override
  public Integer call() {
    // Before a record is made for it.
    if (Files.notExists(file)) {
      throw new IllegalArgumentException("there is no file " + file);
    }
    if (Files.isDirectory(file)) {
      throw new IllegalArgumentException(file + " is a folder; name a file with the lines");
    }
    started = System.nanoTime();
    if (target.url != null) {
      Optional<String> token = Optional.ofNullable(System.getenv("EVENSIDE_IMPORT_TOKEN"));
      return send(new BulkClient(target.url, token, PAUSE));
    }
    Settings settings =
        Settings.defaults()
            .with(Catalogue.DATA, String.valueOf(target.data))
            .with(Catalogue.PORT, "0");
    RunningService service = RunningService.start(settings);
    try {
      return send(new BulkClient(URI.create(service.url()), Optional.empty(), PAUSE));
    } finally {
      service.stop();
    }
  }

  private int send(BulkClient client) {
    Importer importer = new Importer(file, client, progress -> tell(progress, false));
    Importer.Progress end = importer.run();
    tell(end, true);
    if (end.refused() > 0) {
      spec.commandLine().getOut().println("refused lines are in " + importer.refusedFile());
    }
    return end.refused() == 0 ? Main.OK : Main.FAULTY;
  }

  private void tell(Importer.Progress progress, boolean end) {
    long now = System.nanoTime();
    if (!end && now - told < TELL_EVERY_NANOS) {
      return;
    }
    told = now;
    double seconds = (now - started) / 1e9;
    PrintWriter out = spec.commandLine().getOut();
    String before = progress.skipped() == 0 ? "" : " after " + progress.skipped() + " done before";
    out.printf(
        "%d lines%s: %d stored, %d refused, %.0f lines/s%n",
        progress.lines(),
        before,
        progress.stored(),
        progress.refused(),
        progress.lines() / seconds);
    out.flush();
  }
}
