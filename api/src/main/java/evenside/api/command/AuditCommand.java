package evenside.api.command;

import evenside.note.SignedNote;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Checks a whole record against its ledger. */
@Command(
    name = "audit",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    description =
        "Check every entry of the ledger, every checkpoint and every document behind them, hold"
            + " cases, batteries and training entries against their hashes, and look for decisions"
            + " without an entry. In a data folder the checkpoints beside the database are checked"
            + " too, so that an older copy is noticed.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:everything holds",
      "1:something was altered or lost",
      "2:no record there, or no ledger in it"
    })
final class AuditCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private RecordOptions record;

  @Option(
      names = "--clinic",
      paramLabel = "ID",
      description = "Check the ledgers of this clinic alone. Default: those of every clinic.")
  private @Nullable String clinic;

  @Option(
      names = "--since",
      paramLabel = "FILE",
      description = "A checkpoint that you kept; the record must still hold it. May be repeated.")
  private List<Path> since = List.of();

  @Override
  public Integer call() {
    List<SignedNote> kept = KeptCheckpoint.read("--since", since);
    Upkeep.Audited audited = Upkeep.audit(record.existing(), Optional.ofNullable(clinic), kept);
    List<String> findings = audited.findings();
    PrintWriter out = spec.commandLine().getOut();
    findings.forEach(out::println);
    out.println("checked: " + String.join(", ", audited.ledgers()));
    out.println(
        "checked: "
            + audited.counts().entrySet().stream()
                .map(counted -> counted.getKey() + ": " + counted.getValue())
                .collect(Collectors.joining(", ")));
    out.println(findings.isEmpty() ? "everything holds" : "findings: " + findings.size());
    return findings.isEmpty() ? Main.OK : Main.FAULTY;
  }
}
