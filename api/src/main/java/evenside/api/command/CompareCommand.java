package evenside.api.command;

import evenside.schemas.Comparison;
import evenside.schemas.Difference;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Compares two versions of the schemas, offline. */
@Command(
    name = "compare",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    description = "Show what differs between two versions of the schemas, and whom it breaks.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:nothing breaks",
      "1:something breaks",
      "2:a folder cannot be read, or holds no bundles"
    })
final class CompareCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "OLD", description = "Folder of the older bundles.")
  private Path before = Path.of("");

  @Parameters(index = "1", paramLabel = "NEW", description = "Folder of the newer bundles.")
  private Path after = Path.of("");

  @Option(
      names = "--samples",
      paramLabel = "DIR",
      description =
          "Documents, each in a folder named after its kind; shows which of them only one of the"
              + " two versions accepts.")
  private @Nullable Path samples;

  @Override
  public Integer call() {
    List<Difference> differences = new ArrayList<>(Comparison.of(before, after));
    if (samples != null) {
      differences.addAll(Comparison.ofSamples(before, after, samples));
    }
    PrintWriter out = spec.commandLine().getOut();
    differences.forEach(one -> out.println(one.inWords()));
    long breaks = differences.stream().filter(Difference::breaks).count();
    out.printf("differences: %d, of these breaking: %d%n", differences.size(), breaks);
    return breaks == 0 ? Main.OK : Main.FAULTY;
  }
}
