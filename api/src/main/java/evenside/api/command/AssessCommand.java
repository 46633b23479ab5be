package evenside.api.command;

import evenside.document.Document;
import evenside.readiness.Desk;
import evenside.readiness.recording.Refused;
import evenside.schemas.Contract;
import evenside.schemas.NotJson;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Scores an assessment request, offline. */
@Command(
    name = "assess",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    description = "Score an assessment request and print the assessment, offline.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {"0:assessed", "1:the request has faults", "2:the file cannot be read"})
final class AssessCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FILE", description = "The request, as POST /v1/assessments takes it.")
  private Path file = Path.of("");

  @Override
  public Integer call() {
    try {
      Document assessment =
          Desk.of(Contract.published(), InstantSource.system()).assess(DocumentFiles.read(file));
      spec.commandLine().getOut().println(new String(assessment.bytes(), StandardCharsets.UTF_8));
      return Main.OK;
    } catch (NotJson notJson) {
      err().println(file + ": " + notJson.detail());
      return Main.FAULTY;
    } catch (Refused refused) {
      err().println(file + ": " + refused.detail());
      refused
          .faults()
          .forEach(f -> err().println("  " + f.pointer() + "  " + f.code() + "  " + f.detail()));
      return Main.FAULTY;
    }
  }

  private PrintWriter err() {
    return spec.commandLine().getErr();
  }
}
