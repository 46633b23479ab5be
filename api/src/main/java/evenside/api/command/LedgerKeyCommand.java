package evenside.api.command;

import evenside.api.Place;
import evenside.api.settings.Catalogue;
import evenside.api.settings.Settings;
import evenside.ledger.KeyFiles;
import evenside.ledger.KeyReplacement.Why;
import evenside.ledger.LedgerSettings;
import evenside.note.SignedNote;
import evenside.note.SigningKey;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
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
      description =
          "Make a new key in a new file of mode 0600, and print its verifier-key line, to be"
              + " pinned.")
  void create(
      @Parameters(paramLabel = "FILE", description = "Where the key goes; must not be there yet.")
          Path file,
      @Mixin LedgerOf ledger) {
    print(KeyFiles.create(file), ledger.origin());
  }

  @Command(
      name = "rotate",
      mixinStandardHelpOptions = true,
      description =
          "Make a new key in place of the ledger.key of a folder; the service must be stopped."
              + " Both keys sign until ledger-previous.key is removed.")
  void rotate(
      @Option(
              names = "--data",
              paramLabel = "DIR",
              defaultValue = "data",
              description = "The folder of the key. Default: ${DEFAULT-VALUE}.")
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

  @Command(
      name = "replace",
      mixinStandardHelpOptions = true,
      description = {
        "After the key became known to others, or was lost: make a new one, and begin a new ledger"
            + " for each clinic, which carries the root of the old one at a checkpoint that somebody"
            + " outside has kept. The service and every replica must be stopped. Prints the new"
            + " verifier-key lines, to be pinned. If it is broken off, do it again. After a kill, start"
            + " and stop the service once before, so that the last entries are signed too.",
        "What was recorded after that checkpoint stays, and stays in the old ledger; whoever knows"
            + " the old key could have added to it, so compare it with what others know. If nobody"
            + " has kept a checkpoint, take that of /v1/ledger/checkpoint before the stop. With"
            + " --lost none is needed: each ledger goes on from what it signed last."
      })
  void replace(
      @Mixin RecordOptions record,
      @Option(
              names = "--ledger-key",
              paramLabel = "FILE",
              description =
                  "The key, as the service is told. Default: ledger.key in the data folder.")
          @Nullable String key,
      @Option(names = "--ledger-name", paramLabel = "NAME", description = "As the service has it.")
          @Nullable String name,
      @Option(names = "--lost", description = "The file of the key is gone, and no copy is left.")
          boolean lost,
      @Option(
              names = "--checkpoint",
              paramLabel = "FILE",
              description = "A checkpoint that was kept, for each clinic. May be repeated.")
          List<Path> checkpoints) {
    Map<String, String> flags = new LinkedHashMap<>();
    Optional.ofNullable(key).ifPresent(file -> flags.put(Catalogue.LEDGER_KEY.name(), file));
    Optional.ofNullable(name).ifPresent(text -> flags.put(Catalogue.LEDGER_NAME.name(), text));
    Settings settings = record.settings(flags);
    List<SignedNote> kept =
        KeptCheckpoint.read("--checkpoint", checkpoints == null ? List.of() : checkpoints);
    Why why = lost ? Why.LOST : Why.KNOWN;
    Upkeep.replaceKey(RecordOptions.existing(Place.of(settings)), settings, why, kept)
        .forEach(line -> spec.commandLine().getOut().println(line.line()));
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
                + " of all. After ledger-key replace it is ID/2, then ID/3. Default:"
                + " ${DEFAULT-VALUE}.")
    private String clinic = "local";

    private String origin() {
      return name + "/" + clinic;
    }
  }

  private void print(SigningKey key, String name) {
    spec.commandLine().getOut().println(key.verifier(name).line());
  }
}
