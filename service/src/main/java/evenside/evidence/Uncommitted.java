package evenside.evidence;

import evenside.note.SignedNote;
import evenside.note.VerifierKey;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;

/**
 * The members of a bundle that no entry of the ledger commits to. What can be is held against the
 * signature and against the files that this program publishes; the rest is named.
 */
final class Uncommitted {
  private final Bundle bundle;
  private final List<String> notCovered = new ArrayList<>();

  Uncommitted(Bundle bundle) {
    this.bundle = bundle;
  }

  /** What is not covered by any check that was made, in words. */
  List<String> notCovered() {
    return notCovered;
  }

  void unknown(List<String> members) {
    if (!members.isEmpty()) {
      notCovered.add("members that this program does not know: " + String.join(", ", members));
    }
  }

  /** The engine version is held against the decision, which an erased bundle does not have. */
  void unused(boolean olderGiven) {
    if (bundle.consistency().isPresent() && !olderGiven) {
      notCovered.add("consistency, as no older checkpoint was given to hold it against");
    }
    if (bundle.engineVersion().isPresent() && bundle.documents().isEmpty()) {
      notCovered.add("engineVersion, as the documents were erased");
    }
  }

  /** The key that signed is listed; of another it is only known whether it signed as well. */
  String keys(VerifierKey signer, SignedNote checkpoint) {
    List<VerifierKey> keys =
        Failed.attempt("keys", () -> bundle.keys().stream().map(VerifierKey::parse).toList());
    boolean listed = keys.stream().anyMatch(key -> key.line().equals(signer.line()));
    Failed.demand(listed, "keys", "the key that signed is not in the list of the bundle");
    List<String> silent =
        keys.stream().filter(key -> !checkpoint.isSignedBy(key)).map(VerifierKey::line).toList();
    if (!silent.isEmpty()) {
      notCovered.add("keys that did not sign this checkpoint: " + String.join(", ", silent));
    }
    return "the key that signed is in the list";
  }

  /**
   * The hashes are those of the published files. A file with a version in its path is the same in
   * every release; the others are compared if the same engine decided.
   *
   * @return what was found; empty where there was nothing to compare with
   */
  Optional<String> schemas(Optional<PublishedFiles> published) {
    String version = bundle.schemaVersion();
    if (published.filter(files -> files.schemaVersion().equals(version)).isEmpty()) {
      notCovered.add(
          "schemaVersion and schemaHashes, as there is nothing of version "
              + version
              + " to compare with");
      return Optional.empty();
    }
    Set<String> other = differing(published.get());
    Predicate<String> forged = wrong(published.get());
    for (String file : other) {
      Failed.demand(
          !forged.test(file),
          "schemas",
          "schemaHashes does not have the "
              + file
              + " of version "
              + version
              + "; if another release made the bundle, check it with that one");
    }
    if (!other.isEmpty()) {
      notCovered.add(
          "schemaHashes of files that another release may have otherwise: "
              + String.join(", ", other));
    }
    long same = bundle.schemaHashes().keySet().stream().filter(f -> !other.contains(f)).count();
    return Optional.of(same + " files of version " + version + " are as published");
  }

  /** Which difference cannot come from another release. */
  private Predicate<String> wrong(PublishedFiles published) {
    boolean sameEngine = bundle.engineVersion().equals(Optional.of(published.engineVersion()));
    return file ->
        sameEngine
            || (PublishedFiles.isFixed(file)
                && bundle.schemaHashes().containsKey(file)
                && published.sha256().containsKey(file));
  }

  /** Paths with another hash on the other side, or none. */
  private Set<String> differing(PublishedFiles published) {
    Set<String> paths = new TreeSet<>(published.sha256().keySet());
    paths.addAll(bundle.schemaHashes().keySet());
    paths.removeIf(
        file ->
            published.sha256().containsKey(file)
                && published.sha256().get(file).equals(bundle.schemaHashes().get(file)));
    return paths;
  }
}
