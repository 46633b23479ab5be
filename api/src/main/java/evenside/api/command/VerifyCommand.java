package evenside.api.command;

import evenside.decision.Engine;
import evenside.evidence.BundleVerifier;
import evenside.evidence.PublishedFiles;
import evenside.evidence.Recompute;
import evenside.evidence.Verification;
import evenside.note.SignedNote;
import evenside.note.VerifierKey;
import evenside.readiness.audit.Recomputation;
import evenside.schemas.Contract;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
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

/** Checks an evidence bundle, offline. */
@Command(
    name = "verify",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    description =
        "Check the proof of a past decision, offline: no database, no network. Lists what the bundle"
            + " holds beside it that no check covers.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:every check passed",
      "1:a check failed",
      "2:a file cannot be read, or a key line is malformed"
    })
final class VerifyCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "BUNDLE", description = "File with the evidence bundle.")
  private Path bundle = Path.of("");

  @Option(
      names = "--key",
      paramLabel = "LINE",
      description =
          "Verifier-key line that you trust, from an earlier time or by another way; may be given"
              + " more than once. Without it the bundle's own keys are taken, and the answer says"
              + " so.")
  private List<String> keys = List.of();

  @Option(
      names = "--since",
      paramLabel = "FILE",
      description =
          "A checkpoint that you kept from before; the bundle must have been asked for with its"
              + " size (?since=).")
  private @Nullable Path since;

  @Option(
      names = "--recompute",
      description =
          "Compute the decision again from the bundle, and fail unless the bytes are the same.")
  private boolean recompute;

  @Override
  public Integer call() {
    Optional<Recompute> again =
        recompute ? Optional.of(Recomputation.of(Contract.published())) : Optional.empty();
    Verification verification =
        BundleVerifier.verify(
            read(bundle),
            pinned(),
            older(),
            again,
            Optional.of(PublishedFiles.of(Contract.published(), Engine.VERSION)));
    for (Verification.Check check : verification.checks()) {
      out()
          .printf(
              "%-6s  %s: %s%n",
              check.passed() ? "ok" : "FAILED", check.name(), Plain.text(check.detail()));
    }
    for (String member : verification.notCovered()) {
      out().printf("%-6s  not covered: %s%n", "--", Plain.text(member));
    }
    return verification.holds() ? Main.OK : Main.FAULTY;
  }

  private List<VerifierKey> pinned() {
    List<VerifierKey> pinned = new ArrayList<>();
    for (String line : keys) {
      try {
        pinned.add(VerifierKey.parse(line));
      } catch (IllegalArgumentException e) {
        throw new ParameterException(spec.commandLine(), "--key: " + e.getMessage() + ".", e);
      }
    }
    return pinned;
  }

  private Optional<SignedNote> older() {
    if (since == null) {
      return Optional.empty();
    }
    String note = new String(read(since), StandardCharsets.UTF_8);
    try {
      return Optional.of(SignedNote.parse(note));
    } catch (IllegalArgumentException e) {
      throw new ParameterException(
          spec.commandLine(), "--since: " + since + " holds no checkpoint: " + e.getMessage(), e);
    }
  }

  private static byte[] read(Path file) {
    try {
      return Files.readAllBytes(file);
    } catch (NoSuchFileException e) {
      throw new UncheckedIOException("there is no file " + file, e);
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + file, e);
    }
  }

  private PrintWriter out() {
    return spec.commandLine().getOut();
  }
}
