package evenside.api;

import evenside.readiness.CheckReport;
import evenside.readiness.Desk;
import evenside.schemas.Contract;
import evenside.schemas.Fault;
import evenside.schemas.NotJson;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tools.jackson.databind.JsonNode;

/** Checks files against the contract, offline. */
@Command(
    name = "check",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    description = "Check documents against the published schemas and rules, offline.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:every document is valid",
      "1:a document has faults",
      "2:a file cannot be read or its kind cannot be told"
    })
final class CheckCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(
      paramLabel = "FILE",
      arity = "1..*",
      description = "Files, or folders of .json files.")
  private List<Path> files = List.of();

  @Option(
      names = "--kind",
      paramLabel = "KIND",
      description = "Kind of all the documents; otherwise each is told by its members.")
  private @Nullable String kind;

  @Override
  public Integer call() {
    Contract contract = Contract.published();
    if (kind != null && !contract.kinds().contains(kind)) {
      throw new ParameterException(
          spec.commandLine(), "--kind takes one of " + String.join(", ", contract.kinds()) + ".");
    }
    Desk desk = Desk.of(contract, InstantSource.system());
    Kinds kinds = new Kinds(contract);
    int worst = Main.OK;
    for (Path file : DocumentFiles.expand(files)) {
      worst = Math.max(worst, check(file, desk, kinds));
    }
    return worst;
  }

  private int check(Path file, Desk desk, Kinds kinds) {
    JsonNode document;
    try {
      document = DocumentFiles.read(file);
    } catch (NotJson notJson) {
      out().printf("%s: not JSON%n", file);
      String place =
          notJson.location().map(at -> "line " + at.line() + ", column " + at.column()).orElse("#");
      out().printf("  %s  %s  %s%n", place, notJson.code(), notJson.detail());
      return Main.FAULTY;
    }
    Optional<String> told = Optional.ofNullable(kind).or(() -> kinds.of(document));
    if (told.isEmpty()) {
      spec.commandLine().getErr().printf("%s: cannot tell its kind; name it by --kind%n", file);
      return Main.FAILED;
    }
    return print(file, desk.check(told.get(), document));
  }

  private int print(Path file, CheckReport report) {
    int count = report.faults().size();
    String verdict = report.valid() ? "valid" : count + (count == 1 ? " fault" : " faults");
    out().printf("%s: %s, %s%n", file, report.kind(), verdict);
    report.faults().forEach(fault -> out().println("  " + line(fault)));
    if (report.truncated()) {
      out().println("  and more");
    }
    report.warnings().forEach(warning -> out().println("  warning: " + line(warning)));
    return report.valid() ? Main.OK : Main.FAULTY;
  }

  private static String line(Fault fault) {
    return fault.pointer() + "  " + fault.code() + "  " + fault.detail();
  }

  private PrintWriter out() {
    return spec.commandLine().getOut();
  }
}
