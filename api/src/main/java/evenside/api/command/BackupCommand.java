package evenside.api.command;

import evenside.api.BackupRequests;
import evenside.api.Place;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Copies the record of a data folder to a file. */
@Command(
    name = "backup",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    description =
        "Copy the record of a data folder to one file, whether the service runs or not. The"
            + " ledger's key is not in it: keep that apart. A database server has its own tools"
            + " (pg_dump).",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {"0:the copy is on disk", "2:it could not be made"})
final class BackupCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private FolderOptions record;

  @Option(
      names = "--to",
      required = true,
      paramLabel = "FILE",
      description = "File to make; only its owner may read it.")
  private Path to = Path.of("");

  @Override
  public Integer call() {
    Place place =
        RecordOptions.existing(record.place("a database server has its own tools (pg_dump)"));
    if (Upkeep.isOpenElsewhere(place)) {
      BackupRequests.ask(place.folder(), to);
    } else {
      Upkeep.backUp(place, to);
    }
    spec.commandLine().getOut().println("the record is copied to " + to);
    return Main.OK;
  }
}
