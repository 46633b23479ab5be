package evenside.api;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Checks a whole record against its ledger. */
@Command(
    name = "audit",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    description =
        "Check every entry of the ledger, every checkpoint and every document behind them. The"
            + " service must be stopped.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {"0:everything holds", "1:something was altered or lost", "2:no record there"})
final class AuditCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Option(
      names = "--data",
      paramLabel = "DIR",
      defaultValue = "data",
      description = "Data folder of the record. Default: ${DEFAULT-VALUE}.")
  private Path data = Path.of("");

  @Option(
      names = "--clinic",
      paramLabel = "ID",
      defaultValue = "local",
      description = "Clinic. Default: ${DEFAULT-VALUE}.")
  private String clinic = "";

  @Override
  public Integer call() {
    List<String> findings = RunningService.audit(data, clinic);
    PrintWriter out = spec.commandLine().getOut();
    findings.forEach(out::println);
    out.println(findings.isEmpty() ? "everything holds" : findings.size() + " findings");
    return findings.isEmpty() ? Main.OK : Main.FAULTY;
  }
}
