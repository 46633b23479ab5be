package evenside.evidence;

import static evenside.evidence.Failed.attempt;
import static evenside.evidence.Failed.demand;
import static evenside.evidence.Failed.failed;

import evenside.document.Document;
import evenside.evidence.Bundle.Documents;
import evenside.evidence.Bundle.Part;
import evenside.evidence.Bundle.Salted;
import evenside.evidence.Bundle.Statement;
import evenside.ledger.Commitment;
import evenside.ledger.Entry;
import evenside.ledger.EntryType;
import evenside.ledger.TlogProof;
import evenside.merkle.ConsistencyProof;
import evenside.merkle.Hash;
import evenside.merkle.InclusionProof;
import evenside.merkle.TreeHead;
import evenside.note.Checkpoint;
import evenside.note.SignedNote;
import evenside.note.VerifierKey;
import evenside.schemas.NotJson;
import evenside.schemas.StrictJson;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import tools.jackson.databind.JsonNode;

/**
 * Checks an evidence bundle with nothing but a pinned key: no store, no network, no trust in who
 * made it.
 *
 * <p>Checks, in order: {@code format}, {@code key} (signature of the checkpoint), {@code entry}
 * (138 bytes of the right type), {@code inclusion} (the entry is in the signed tree), {@code
 * commitments} (documents are those of the entry), {@code documents} (they name each other), {@code
 * decision} (what it says), {@code determinations}, {@code consistency} if an older checkpoint is
 * given, {@code keys} and {@code schemas} (what no entry commits to: {@link Uncommitted}), {@code
 * recompute} if asked for. For an erased decision, {@code erasure} takes the place of the two about
 * documents.
 */
public final class BundleVerifier {
  private final List<VerifierKey> pinned;
  private final Optional<SignedNote> older;
  private final Optional<Recompute> recompute;
  private final Optional<PublishedFiles> published;
  private final List<Verification.Check> checks = new ArrayList<>();
  private final List<String> notCovered = new ArrayList<>();

  private BundleVerifier(
      List<VerifierKey> pinned,
      Optional<SignedNote> older,
      Optional<Recompute> recompute,
      Optional<PublishedFiles> published) {
    this.pinned = pinned;
    this.older = older;
    this.recompute = recompute;
    this.published = published;
  }

  /**
   * Checks a bundle without the published files, so its {@code schemaHashes} are not covered.
   *
   * @param recompute computes the decision again
   */
  public static Verification verify(
      byte[] bundle,
      List<VerifierKey> pinned,
      Optional<SignedNote> older,
      Optional<Recompute> recompute) {
    return verify(bundle, pinned, older, recompute, Optional.empty());
  }

  /**
   * Checks a bundle.
   *
   * @param pinned the keys that are trusted; if none, those in the bundle are taken, and the answer
   *     says so
   * @param older a checkpoint kept from before, which the ledger must extend
   * @param recompute computes the decision again
   * @param published the files that this program publishes
   */
  public static Verification verify(
      byte[] bundle,
      List<VerifierKey> pinned,
      Optional<SignedNote> older,
      Optional<Recompute> recompute,
      Optional<PublishedFiles> published) {
    BundleVerifier verifier = new BundleVerifier(pinned, older, recompute, published);
    try {
      verifier.all(bundle);
    } catch (Failed failed) {
      verifier.checks.add(failed.check());
    }
    return new Verification(verifier.checks, verifier.notCovered);
  }

  private void all(byte[] bytes) {
    JsonNode json = attempt("format", () -> BundleJson.parse(bytes));
    Bundle bundle = attempt("format", () -> BundleJson.read(json));
    passed("format", "an evidence bundle of schema version " + bundle.schemaVersion());
    TlogProof proof = attempt("format", () -> TlogProof.parse(bundle.decision().proof()));
    VerifierKey signer = signer(bundle, proof.checkpoint());
    TreeHead head = Checkpoint.parse(proof.checkpoint().text()).head();
    Entry entry = entry(bundle.decision(), EntryType.DECISION);
    passed("entry", "138 bytes: a decision, " + entry.id());
    included("inclusion", bundle.decision(), proof, head);
    passed("inclusion", "entry %d of %d".formatted(proof.index(), head.size()));
    if (bundle.documents().isPresent()) {
      documents(bundle, bundle.documents().get(), entry);
    } else {
      erasure(bundle, entry, head);
    }
    determinations(bundle, entry, head);
    older.ifPresent(note -> consistency(bundle, note, proof.checkpoint(), head));
    uncommitted(json, bundle, signer, proof.checkpoint());
    recompute.ifPresent(again -> recompute(bundle, again));
  }

  private void uncommitted(
      JsonNode json, Bundle bundle, VerifierKey signer, SignedNote checkpoint) {
    Uncommitted rest = new Uncommitted(bundle);
    passed("keys", rest.keys(signer, checkpoint));
    rest.schemas(published).ifPresent(found -> passed("schemas", found));
    rest.unused(older.isPresent());
    rest.unknown(BundleJson.unknown(json));
    notCovered.addAll(rest.notCovered());
  }

  private VerifierKey signer(Bundle bundle, SignedNote note) {
    Checkpoint checkpoint = attempt("key", () -> Checkpoint.parse(note.text()));
    List<VerifierKey> trusted = pinned;
    if (pinned.isEmpty()) {
      trusted = attempt("key", () -> bundle.keys().stream().map(VerifierKey::parse).toList());
    }
    VerifierKey signer =
        trusted.stream()
            .filter(key -> key.name().equals(checkpoint.origin()) && note.isSignedBy(key))
            .findFirst()
            .orElseThrow(
                () ->
                    failed(
                        "key",
                        "the checkpoint of %s is not signed by a trusted key"
                            .formatted(checkpoint.origin())));
    passed(
        "key",
        "signed by %s, id %s%s"
            .formatted(
                signer.name(),
                signer.id(),
                pinned.isEmpty() ? "; NOT PINNED: the key is the bundle's own" : ""));
    return signer;
  }

  private Entry entry(Part part, EntryType type) {
    Entry entry = attempt("entry", () -> Entry.parse(part.leaf()));
    demand(entry.type() == type, "entry", "entry " + part.index() + " is no " + type);
    return entry;
  }

  private void included(String check, Part part, TlogProof proof, TreeHead head) {
    demand(part.index() == proof.index(), check, "the proof is for another index");
    demand(
        InclusionProof.verifies(Hash.leaf(part.leaf()), part.index(), proof.hashes(), head),
        check,
        "the proof does not lead from entry %d to the signed root".formatted(part.index()));
  }

  /** Another entry under the same checkpoint. */
  private Entry further(String check, Part part, EntryType type, TreeHead head) {
    TlogProof proof = attempt(check, () -> TlogProof.parse(part.proof()));
    TreeHead own = attempt(check, () -> Checkpoint.parse(proof.checkpoint().text()).head());
    demand(own.equals(head), check, "entry %d is proved for another head".formatted(part.index()));
    included(check, part, proof, head);
    return entry(part, type);
  }

  private void documents(Bundle bundle, Documents documents, Entry entry) {
    demand(bundle.erasure().isEmpty(), "commitments", "erased, but the documents are here");
    committed("decision", documents.decision(), entry.document());
    committed("inputs document", documents.inputs(), entry.inputs());
    demand(
        Hash.sha256(documents.criteriaSet()).equals(entry.criteria()),
        "commitments",
        "the criteria set is not the one of the entry");
    passed("commitments", "decision, inputs and criteria set are those of the entry");
    JsonNode decision = names(bundle, documents, entry.id());
    passed("documents", "decision, inputs and criteria set name each other");
    passed("decision", Proved.inWords(decision));
  }

  private void committed(String what, Salted document, Hash commitment) {
    boolean same =
        document.salt().length == Commitment.SALT_LENGTH
            && Commitment.of(document.salt(), document.bytes()).equals(commitment);
    demand(same, "commitments", "the entry commits to another " + what);
  }

  private JsonNode names(Bundle bundle, Documents documents, UUID id) {
    JsonNode decision = json("decision", documents.decision().bytes());
    JsonNode inputs = json("inputs", documents.inputs().bytes());
    JsonNode set = json("criteria set", documents.criteriaSet());
    String sha256 = Document.sha256(documents.inputs().bytes());
    same("the id of the decision", decision.path("decisionId"), id.toString());
    same("the fingerprint of the inputs", decision.path("inputsSha256"), sha256);
    for (JsonNode from : List.of(decision.path("criteriaSet"), inputs.path("criteriaSet"))) {
      same("the criteria set", from.path("id"), set.path("id").asString(""));
      same("the criteria set's version", from.path("version"), set.path("version").asString(""));
      same(
          "the criteria set's fingerprint",
          from.path("sha256"),
          Document.sha256(documents.criteriaSet()));
    }
    String engine = bundle.engineVersion().orElse("");
    same("the engine version", decision.path("engineVersion"), engine);
    same("the engine version in the inputs", inputs.path("engineVersion"), engine);
    for (String kind : List.of("battery", "session")) {
      for (JsonNode one : inputs.path(kind.equals("battery") ? "batteries" : "sessions")) {
        same(
            "the fingerprint of %s %s".formatted(kind, one.path(kind + "Id").asString("")),
            one.path("sha256"),
            Document.of(one.path(kind)).sha256());
      }
    }
    return decision;
  }

  private static JsonNode json(String what, byte[] bytes) {
    try {
      return StrictJson.read(bytes, StrictJson.Limits.OWN);
    } catch (NotJson broken) {
      throw failed("documents", "the " + what + " is not JSON: " + broken.detail());
    }
  }

  private static void same(String what, JsonNode value, String wanted) {
    demand(value.isString() && value.stringValue().equals(wanted), "documents", what + " differs");
  }

  private void erasure(Bundle bundle, Entry entry, TreeHead head) {
    Part part =
        bundle
            .erasure()
            .orElseThrow(
                () -> failed("erasure", "the documents are missing, and no erasure says why"));
    Entry erased = further("erasure", part, EntryType.ERASURE, head);
    demand(
        erased.refersTo().equals(Optional.of(entry.id()))
            && part.index() > bundle.decision().index(),
        "erasure",
        "the erasure is of another entry");
    passed("erasure", "the documents were erased: entry %d says so".formatted(part.index()));
  }

  private void determinations(Bundle bundle, Entry decision, TreeHead head) {
    Set<UUID> seen = new HashSet<>();
    for (Statement statement : bundle.determinations()) {
      Entry entry = further("determinations", statement.part(), EntryType.DETERMINATION, head);
      demand(
          seen.add(entry.id()),
          "determinations",
          "entry %d stands here twice".formatted(statement.part().index()));
      demand(
          entry.refersTo().equals(Optional.of(decision.id())),
          "determinations",
          "entry %d is about another decision".formatted(statement.part().index()));
      Salted document = statement.document();
      boolean same =
          document.salt().length == Commitment.SALT_LENGTH
              && Commitment.of(document.salt(), document.bytes()).equals(entry.document());
      demand(
          same,
          "determinations",
          "determination %s is not the one of its entry".formatted(entry.id()));
    }
    // A bundle cannot prove that nothing was left out of it.
    passed(
        "determinations",
        bundle.determinations().size()
            + " in the bundle, each on this decision; it cannot show that there are no others");
  }

  private void consistency(Bundle bundle, SignedNote note, SignedNote newer, TreeHead head) {
    Checkpoint old = attempt("consistency", () -> Checkpoint.parse(note.text()));
    String origin = Checkpoint.parse(newer.text()).origin();
    demand(old.origin().equals(origin), "consistency", "the older checkpoint is of another ledger");
    long size = old.head().size();
    // Neither says anything about the ledger; only a bundle that was asked for so can.
    demand(
        size <= head.size(),
        "consistency",
        "the bundle is of size %d, from before the checkpoint of size %d; fetch it again with"
                .formatted(head.size(), size)
            + " ?since="
            + size);
    boolean has = bundle.consistency().filter(proof -> proof.from() == size).isPresent();
    demand(
        has || size == head.size(),
        "consistency",
        "the bundle has no proof from size %d on; fetch it again with ?since=%d"
            .formatted(size, size));
    List<Hash> hashes =
        attempt(
            "consistency",
            () ->
                bundle
                    .consistency()
                    .filter(proof -> proof.from() == size)
                    .map(proof -> proof.hashes().stream().map(Hash::ofBase64).toList())
                    .orElse(List.of()));
    demand(
        ConsistencyProof.verifies(old.head(), head, hashes),
        "consistency",
        "the ledger does not extend the checkpoint of size " + size);
    passed("consistency", "extends the checkpoint of size " + size);
  }

  private void recompute(Bundle bundle, Recompute again) {
    Documents documents =
        bundle.documents().orElseThrow(() -> failed("recompute", "the inputs were erased"));
    byte[] decision;
    try {
      JsonNode said = json("decision", documents.decision().bytes());
      decision =
          again.decision(
              documents.inputs().bytes(),
              documents.criteriaSet(),
              said.path("decisionId").asString(""),
              said.path("decidedAt").asString(""));
    } catch (RuntimeException e) {
      throw failed("recompute", "cannot be computed again: " + e.getMessage());
    }
    demand(
        Arrays.equals(decision, documents.decision().bytes()),
        "recompute",
        "the computation gives another decision");
    passed("recompute", "the computation gives the same bytes");
  }

  private void passed(String check, String detail) {
    checks.add(new Verification.Check(check, true, detail));
  }
}
