package evenside.api.command;

import evenside.ledger.KeyFiles;
import evenside.ledger.LedgerSettings;
import evenside.note.SigningKey;
import java.nio.file.Path;
import picocli.CommandLine.Command;
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

  @Command(name = "create", description = "Make a new key in a new file of mode 0600.")
  void create(@Parameters(paramLabel = "FILE") Path file) {
    print(KeyFiles.create(file), LedgerSettings.DEFAULT_NAME + "/CLINIC");
  }

  @Command(
      name = "rotate",
      description =
          "Make a new key in a data folder; the service must be stopped. Both keys sign until"
              + " ledger-previous.key is removed.")
  void rotate(
      @Option(names = "--data", paramLabel = "DIR", defaultValue = "data") Path data,
      @Option(names = "--clinic", paramLabel = "ID", defaultValue = "local") String clinic) {
    print(LedgerSettings.rotate(data), LedgerSettings.DEFAULT_NAME + "/" + clinic);
  }

  @Command(name = "show", description = "Print the verifier-key line of a key, to be pinned.")
  void show(
      @Parameters(paramLabel = "FILE") Path file,
      @Option(
              names = "--ledger-name",
              paramLabel = "NAME",
              defaultValue = LedgerSettings.DEFAULT_NAME)
          String name,
      @Option(names = "--clinic", paramLabel = "ID", defaultValue = "local") String clinic) {
    print(KeyFiles.read(file), name + "/" + clinic);
  }

  private void print(SigningKey key, String name) {
    spec.commandLine().getOut().println(key.verifier(name).line());
  }
}
