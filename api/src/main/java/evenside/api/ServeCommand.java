package evenside.api;

import evenside.api.http.Loopback;
import evenside.api.settings.BadSettings;
import evenside.api.settings.Catalogue;
import evenside.api.settings.Settings;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Starts the service, which then runs until it is told to stop. */
@Command(
    name = "serve",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    modelTransformer = SettingFlags.class,
    description = "Start the service.",
    footer = {
      "",
      "Each of these can also stand in the settings file (port = 8080) and in the environment",
      "(EVENSIDE_PORT=8080); a flag wins over the environment, and that over the file. Secrets",
      "have no flag."
    })
final class ServeCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Option(
      names = "--settings",
      paramLabel = "FILE",
      defaultValue = "${env:" + Settings.FILE_VARIABLE + "}",
      description = "File with settings, \"name = value\" a line.")
  private @Nullable Path file;

  @Option(
      names = "--show-settings",
      description = "Print every setting, its value and where that came from, and end.")
  private boolean show;

  @Override
  public Integer call() {
    Settings settings =
        Settings.from(
            Optional.ofNullable(file),
            System.getenv(),
            SettingFlags.given(spec.commandLine().getParseResult()));
    check(settings);
    if (show) {
      spec.commandLine().getOut().println(settings.table());
      return Main.OK;
    }
    RunningService running = RunningService.start(settings);
    Runtime.getRuntime().addShutdownHook(new Thread(running::stop, "stop"));
    spec.commandLine().getOut().println(running.greeting());
    spec.commandLine().getOut().flush();
    return Main.OK;
  }

  /** What single settings cannot know of each other. */
  private static void check(Settings settings) {
    if (!Loopback.isAddress(settings.get(Catalogue.HOST))) {
      throw new BadSettings(
          "host must be a loopback address (127.0.0.1, ::1 or localhost): the service has no"
              + " authentication yet, so it must not listen on any other address");
    }
    if (settings.get(Catalogue.DEMO) && settings.get(Catalogue.DATABASE_URL).isPresent()) {
      throw new BadSettings("demo keeps its invented clinic by itself and takes no database-url");
    }
  }
}
