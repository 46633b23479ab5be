package evenside.api;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** How much memory a process holds, where the system tells (Linux). */
final class Resident {
  private Resident() {}

  /** MiB; -1 if not known or if it has ended. */
  static int mebibytes(Process process) throws IOException {
    Path status = Path.of("/proc", String.valueOf(process.pid()), "status");
    if (!Files.isReadable(status)) {
      return -1;
    }
    return Files.readAllLines(status).stream()
        .filter(line -> line.startsWith("VmRSS:"))
        .map(line -> Integer.parseInt(line.replaceAll("[^0-9]", "")) / 1024)
        .findFirst()
        .orElse(-1);
  }
}
