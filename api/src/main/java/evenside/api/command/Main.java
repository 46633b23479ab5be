package evenside.api.command;

import evenside.api.ProgramVersion;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.IVersionProvider;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.Spec;

/** The command line: {@code evenside COMMAND}. Without a command it prints its help. */
@Command(
    name = "evenside",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    description = "Limb symmetry and readiness after ACL reconstruction.",
    subcommands = {
      ServeCommand.class,
      CheckCommand.class,
      CompareCommand.class,
      AssessCommand.class,
      VerifyCommand.class,
      KeysCommand.class,
      LedgerKeyCommand.class,
      AuditCommand.class,
      BackupCommand.class,
      RestoreCommand.class,
      MoveCommand.class,
      ImportCommand.class
    })
public final class Main implements Runnable {
  /** Nothing wrong. */
  public static final int OK = 0;

  /** A document has faults. */
  public static final int FAULTY = 1;

  /** The command could not do its work: wrong usage, unreadable file, no store. */
  public static final int FAILED = 2;

  @Spec private CommandSpec spec;

  private Main() {}

  /** Runs the command named by {@code args} and ends with its exit code unless that is 0. */
  public static void main(String[] args) {
    int exitCode = commandLine().execute(args);
    if (exitCode != OK) {
      System.exit(exitCode);
    }
  }

  static CommandLine commandLine() {
    return new CommandLine(new Main())
        .setExecutionExceptionHandler(Main::explain)
        .setCaseInsensitiveEnumValuesAllowed(true);
  }

  @Override
  public void run() {
    spec.commandLine().usage(spec.commandLine().getOut());
  }

  /** One sentence instead of a stack trace: what failed is outside the program. */
  private static int explain(Exception failure, CommandLine command, ParseResult parsed) {
    command.getErr().println("evenside: " + failure.getMessage());
    return FAILED;
  }

  /** The version of the jar that runs. */
  static final class Version implements IVersionProvider {
    @Override
    public String[] getVersion() {
      return new String[] {"evenside " + ProgramVersion.text()};
    }
  }
}
