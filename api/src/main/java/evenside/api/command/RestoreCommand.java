package evenside.api.command;

import evenside.api.Place;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Puts a copy of a record into a data folder. */
@Command(
    name = "restore",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    description =
        "Put a copy made by backup into a data folder that has no record, and check every ledger"
            + " in it. Put the ledger's key beside it before the service starts.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:everything holds",
      "1:something was altered or lost",
      "2:it could not be restored"
    })
final class RestoreCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private FolderOptions record;

  @Option(names = "--from", required = true, paramLabel = "FILE", description = "The copy.")
  private Path from = Path.of("");

  @Override
  public Integer call() {
    Place place =
        record.place("restore to a folder without that setting, and move the record from there");
    List<String> findings = Upkeep.restore(from, place);
    PrintWriter out = spec.commandLine().getOut();
    findings.forEach(out::println);
    out.println(
        findings.isEmpty()
            ? "restored; everything holds"
            : "restored, but not as it was; findings: " + findings.size());
    return findings.isEmpty() ? Main.OK : Main.FAULTY;
  }
}
