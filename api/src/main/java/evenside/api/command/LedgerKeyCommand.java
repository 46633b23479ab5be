package evenside.api.command;

import evenside.ledger.KeyFiles;
import evenside.ledger.LedgerSettings;
import evenside.note.SigningKey;
import java.nio.file.Path;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The key of the ledger; the keys of clients are {@link KeysCommand}'s. */
@Command(
    name = "ledger-key",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    description = "Make, change and show the key that signs the ledger.")
final class LedgerKeyCommand implements Runnable {
  @Spec private CommandSpec spec;

  @Override
  public void run() {
    spec.commandLine().usage(spec.commandLine().getOut());
  }

  @Command(
      name = "create",
      mixinStandardHelpOptions = true,
      description = "Make a new key in a new file of mode 0600.")
  void create(
      @Parameters(paramLabel = "FILE", description = "Where the key goes; must not be there yet.")
          Path file) {
    print(KeyFiles.create(file), LedgerSettings.DEFAULT_NAME + "/CLINIC");
  }

  @Command(
      name = "rotate",
      mixinStandardHelpOptions = true,
      description =
          "Make a new key in a data folder; the service must be stopped. Both keys sign until"
              + " ledger-previous.key is removed.")
  void rotate(
      @Option(
              names = "--data",
              paramLabel = "DIR",
              defaultValue = "data",
              description = "The data folder. Default: ${DEFAULT-VALUE}.")
          Path data,
      @Mixin LedgerOf ledger) {
    print(LedgerSettings.rotate(data), ledger.origin());
  }

  @Command(
      name = "show",
      mixinStandardHelpOptions = true,
      description = "Print the verifier-key line of a key, to be pinned.")
  void show(
      @Parameters(paramLabel = "FILE", description = "The key.") Path file,
      @Mixin LedgerOf ledger) {
    print(KeyFiles.read(file), ledger.origin());
  }

  /** The ledger whose key line is printed: the line names it. */
  static final class LedgerOf {
    @Option(
        names = "--ledger-name",
        paramLabel = "NAME",
        defaultValue = LedgerSettings.DEFAULT_NAME,
        description = "As the service has it. Default: ${DEFAULT-VALUE}.")
    private String name = LedgerSettings.DEFAULT_NAME;

    @Option(
        names = "--clinic",
        paramLabel = "ID",
        defaultValue = "local",
        description =
            "The clinic whose key line is printed, as each has a name of its own; the key is that"
                + " of all. Default: ${DEFAULT-VALUE}.")
    private String clinic = "local";

    private String origin() {
      return name + "/" + clinic;
    }
  }

  private void print(SigningKey key, String name) {
    spec.commandLine().getOut().println(key.verifier(name).line());
  }
}
