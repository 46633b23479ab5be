package evenside.api;

import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** The command line: {@code evenside COMMAND}. Without a command it prints its help. */
@Command(
    name = "evenside",
    mixinStandardHelpOptions = true,
    description = "Limb symmetry and readiness after ACL reconstruction.")
public final class Main implements Runnable {
  @Spec private CommandSpec spec;

  private Main() {}

  /** Runs the command named by {@code args} and ends with its exit code unless that is 0. */
  public static void main(String[] args) {
    int exitCode = new CommandLine(new Main()).execute(args);
    if (exitCode != 0) {
      System.exit(exitCode);
    }
  }

  @Override
  public void run() {
    spec.commandLine().usage(spec.commandLine().getOut());
  }

  /** Starts the service. */
  @Command(name = "serve", description = "Start the service.")
  void serve() {
    spec.commandLine().getOut().println("evenside: no routes yet");
  }
}
