package evenside.evidence;

import evenside.document.Document;
import evenside.schemas.Contract;
import java.util.Map;
import java.util.TreeMap;

/**
 * The published files that decide what a decision says, as one release of the program has them.
 *
 * @param schemaVersion version of the schemas
 * @param engineVersion version of the computation
 * @param sha256 of each file, by its path
 */
public record PublishedFiles(
    String schemaVersion, String engineVersion, Map<String, String> sha256) {
  /** Keeps its own copy. */
  public PublishedFiles {
    sha256 = Map.copyOf(sha256);
  }

  /** Those of a contract: schemas, catalogue, progressions and questionnaires. */
  public static PublishedFiles of(Contract contract, String engineVersion) {
    Map<String, String> hashes = new TreeMap<>();
    for (String file : contract.files()) {
      if (decides(file)) {
        contract.file(file).ifPresent(bytes -> hashes.put(file, Document.sha256(bytes)));
      }
    }
    return new PublishedFiles(contract.schemaVersion(), engineVersion, hashes);
  }

  private static boolean decides(String file) {
    return isFixed(file) || file.startsWith("catalogue/") || file.startsWith("instruments/");
  }

  /** True for a file that never changes under its path; the others may grow with a release. */
  static boolean isFixed(String file) {
    return file.startsWith("v1/") || file.startsWith("progressions/");
  }
}
