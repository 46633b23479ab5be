package evenside.ledger;

import java.nio.file.Path;
import java.util.regex.Pattern;

/** How the checkpoint file of a ledger is called. */
final class CheckpointFiles {
  static final String SUFFIX = ".checkpoints";

  /** What is a file name everywhere and part of a key name. */
  private static final Pattern CLINIC = Pattern.compile("[A-Za-z0-9_-][A-Za-z0-9._-]{0,63}");

  private CheckpointFiles() {}

  static Path of(Path folder, String clinic, int number) {
    if (!CLINIC.matcher(clinic).matches()) {
      throw new LedgerRefusal(
          "a clinic with a ledger is named by 1 to 64 letters, digits, '.', '_' and '-'");
    }
    return folder.resolve(clinic + "." + number + SUFFIX);
  }
}
