package evenside.api.command;

import evenside.api.RunningService;
import evenside.api.settings.Catalogue;
import evenside.api.settings.Settings;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.slf4j.LoggerFactory;
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
      "Each of these can also stand in the settings file (port = 8080) and in the environment"
          + " (EVENSIDE_PORT=8080); a flag wins over the environment, and that over the file."
          + " Secrets have no flag: EVENSIDE_DATABASE_PASSWORD, EVENSIDE_TLS_KEY_STORE_PASSWORD."
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
    settings.get(Catalogue.LOG_FORM).use();
    RunningService.check(settings);
    if (show) {
      spec.commandLine().getOut().println(settings.table());
      return Main.OK;
    }
    Thread.setDefaultUncaughtExceptionHandler(
        (thread, failure) ->
            LoggerFactory.getLogger(ServeCommand.class).error("a thread ended by itself", failure));
    RunningService running = RunningService.start(settings);
    Runtime.getRuntime().addShutdownHook(new Thread(running::stop, "stop"));
    spec.commandLine().getOut().println(running.greeting());
    spec.commandLine().getOut().flush();
    return Main.OK;
  }
}
