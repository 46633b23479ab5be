package evenside.ledger;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** How the checkpoint file of a ledger is called. */
final class CheckpointFiles {
  static final String SUFFIX = ".checkpoints";

  /** What is a file name everywhere and part of a key name. */
  private static final Pattern CLINIC = Pattern.compile("[A-Za-z0-9_-][A-Za-z0-9._-]{0,63}");

  private CheckpointFiles() {}

  /** Every such file in a folder, in the order of their names. */
  static List<Path> in(Path folder) {
    try (Stream<Path> files = Files.list(folder)) {
      return files
          .filter(file -> String.valueOf(file.getFileName()).endsWith(SUFFIX))
          .sorted()
          .toList();
    } catch (IOException e) {
      throw new LedgerRefusal("cannot read the folder " + folder + ": " + e.getMessage(), e);
    }
  }

  static Path of(Path folder, String clinic, int number) {
    if (!CLINIC.matcher(clinic).matches()) {
      throw new LedgerRefusal(
          "a clinic with a ledger is named by 1 to 64 letters, digits, '.', '_' and '-'");
    }
    return folder.resolve(clinic + "." + number + SUFFIX);
  }
}
