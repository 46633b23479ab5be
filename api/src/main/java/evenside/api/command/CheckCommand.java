package evenside.api.command;

import evenside.api.command.DocumentFiles.Found;
import evenside.readiness.Desk;
import evenside.schemas.Contract;
import evenside.schemas.NotJson;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.ArrayList;
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
  private static final String TEXT = "text";
  private static final String JSON = "json";

  @Spec private CommandSpec spec;

  @Parameters(
      paramLabel = "FILE",
      arity = "1..*",
      description = "Files, or folders of .json files.")
  private List<Path> files = List.of();

  @Option(
      names = "--kind",
      paramLabel = "KIND",
      description =
          "Kind of all the documents; otherwise the nearest folder named like a kind tells it, then"
              + " the members of the document.")
  private @Nullable String kind;

  @Option(
      names = "--report",
      paramLabel = "FORM",
      description =
          "text for people, json for programs (a document of the kind folder-report). Default:"
              + " text.")
  private String form = TEXT;

  @Override
  public Integer call() {
    Contract contract = Contract.published();
    if (kind != null && !contract.kinds().contains(kind)) {
      throw usage("--kind takes one of " + String.join(", ", contract.kinds()) + ".");
    }
    if (!List.of(TEXT, JSON).contains(form)) {
      throw usage("--report takes text or json, not " + form + ".");
    }
    boolean text = form.equals(TEXT);
    CheckPrinter printer = new CheckPrinter(contract, spec.commandLine().getOut());
    Checker checker = new Checker(contract, Optional.ofNullable(kind));
    List<CheckedFile> checked = new ArrayList<>();
    for (Found file : DocumentFiles.expand(files)) {
      CheckedFile one = checker.check(file);
      checked.add(one);
      if (text) {
        printer.file(one);
      }
    }
    if (!text) {
      printer.json(checked);
    } else if (checked.size() > 1) {
      printer.summary(checked);
    }
    return checked.stream().mapToInt(one -> one.verdict().exitCode()).max().orElse(Main.OK);
  }

  /** Tells the kind of files and checks them. */
  private static final class Checker {
    private final Contract contract;
    private final Optional<String> named;
    private final Desk desk;
    private final Kinds kinds;

    Checker(Contract contract, Optional<String> named) {
      this.contract = contract;
      this.named = named;
      this.desk = Desk.of(contract, InstantSource.system());
      this.kinds = new Kinds(contract);
    }

    CheckedFile check(Found file) {
      try {
        JsonNode document = DocumentFiles.read(file.path());
        return named
            .or(() -> ofFolder(file))
            .or(() -> kinds.of(document))
            .map(told -> CheckedFile.of(file.path(), desk.check(told, document)))
            .orElseGet(() -> CheckedFile.ofUnknownKind(file.path()));
      } catch (NotJson notJson) {
        return CheckedFile.notJson(file.path(), notJson);
      }
    }

    private Optional<String> ofFolder(Found file) {
      return file.folders().stream()
          .filter(folder -> contract.kinds().contains(folder))
          .findFirst();
    }
  }

  private ParameterException usage(String message) {
    return new ParameterException(spec.commandLine(), message);
  }
}
