package evenside.api.command;

import evenside.api.ProgramVersion;
import java.util.LinkedHashMap;
import java.util.Map;
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
    description = "Limb symmetry and readiness after ACL reconstruction.")
public final class Main implements Runnable {
  /** Nothing wrong. */
  public static final int OK = 0;

  /** A document has faults. */
  public static final int FAULTY = 1;

  /** The command could not do its work: wrong usage, unreadable file, no store. */
  public static final int FAILED = 2;

  private static final String LARGEST_BUFFER = "jdk.nio.maxCachedBufferSize";

  /** In the order of the help. */
  private static final Map<String, Class<?>> COMMANDS = new LinkedHashMap<>();

  static {
    COMMANDS.put("serve", ServeCommand.class);
    COMMANDS.put("check", CheckCommand.class);
    COMMANDS.put("compare", CompareCommand.class);
    COMMANDS.put("assess", AssessCommand.class);
    COMMANDS.put("verify", VerifyCommand.class);
    COMMANDS.put("keys", KeysCommand.class);
    COMMANDS.put("ledger-key", LedgerKeyCommand.class);
    COMMANDS.put("audit", AuditCommand.class);
    COMMANDS.put("backup", BackupCommand.class);
    COMMANDS.put("restore", RestoreCommand.class);
    COMMANDS.put("move", MoveCommand.class);
    COMMANDS.put("import", ImportCommand.class);
  }

  @Spec private CommandSpec spec;

  private Main() {}

  /** Runs the command named by {@code args} and ends with its exit code unless that is 0. */
  public static void main(String[] args) {
    keepSmallBuffers();
    int exitCode = commandLine(args).execute(args);
    if (exitCode != OK) {
      System.exit(exitCode);
    }
  }

  /**
   * Java keeps for each thread the largest buffer it ever wrote a file through, in memory of its
   * own. Those of H2 are megabytes, and any of the server's threads may write for all.
   */
  private static void keepSmallBuffers() {
    if (System.getProperty(LARGEST_BUFFER) == null) {
      System.setProperty(LARGEST_BUFFER, "262144");
    }
  }

  /**
   * For these arguments: knows the command that they name first alone, as reading what all twelve
   * take would delay the start.
   */
  static CommandLine commandLine(String... args) {
    CommandLine line = new CommandLine(new Main());
    String first = args.length == 0 ? "" : args[0];
    COMMANDS.forEach(
        (name, type) -> {
          if (name.equals(first) || !COMMANDS.containsKey(first)) {
            line.addSubcommand(name, new CommandLine(type));
          }
        });
    return line.setExecutionExceptionHandler(Main::explain)
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
