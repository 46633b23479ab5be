package evenside.readiness.audit;

import evenside.document.Document;
import evenside.ledger.Proofs;
import evenside.merkle.Hash;
import evenside.note.SignedNote;
import evenside.readiness.recording.Records;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import java.util.List;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** The ledger of a clinic as auditors ask for it. */
public final class LedgerDesk {
  private final Records records;

  public LedgerDesk(Records records) {
    this.records = records;
  }

  /** Whether what is recorded can be proved later. */
  public boolean on() {
    return records.ledger().on();
  }

  /** Why a ledger takes no entries, a sentence each; empty if all do. */
  public List<String> trouble() {
    return records.ledger().trouble();
  }

  /**
   * The newest signed checkpoint, as text.
   *
   * @throws Refused {@link Refusal#NOT_FOUND} if nothing was signed yet
   */
  public String checkpoint(String clinic) {
    return proofs(clinic)
        .checkpoint()
        .map(SignedNote::toText)
        .orElseThrow(() -> Records.notFound("checkpoint: nothing was signed yet"));
  }

  /** Every key that ever signed. */
  public Document keys(String clinic) {
    ObjectNode json = Records.object();
    json.put("schemaVersion", records.schemaVersion());
    ArrayNode keys = json.putArray("keys");
    for (Proofs.PublishedKey key : proofs(clinic).keys()) {
      ObjectNode one = keys.addObject();
      one.put("verifierKey", key.key().line()).put("fromSize", key.fromSize());
      key.toSize().ifPresent(size -> one.put("toSize", size));
      one.put("state", key.signs() ? "current" : "retired");
    }
    return Document.of(json);
  }

  /**
   * Proof that the ledger of one size is the start of that of another.
   *
   * @throws Refused {@link Refusal#NOT_FOUND} if the ledger is smaller than that
   */
  public Document consistency(String clinic, long from, long to) {
    List<Hash> hashes =
        proofs(clinic)
            .consistency(from, to)
            .orElseThrow(() -> Records.notFound("ledger: it has fewer entries than that"));
    ObjectNode json = Records.object();
    json.put("schemaVersion", records.schemaVersion()).put("from", from).put("to", to);
    ArrayNode all = json.putArray("hashes");
    hashes.forEach(hash -> all.add(hash.base64()));
    return Document.of(json);
  }

  /**
   * Entries of 138 bytes, each after its length in two bytes.
   *
   * @param from index of the first
   * @param limit most to give
   */
  public byte[] entries(String clinic, long from, int limit) {
    return proofs(clinic).entries(from, limit);
  }

  private Proofs proofs(String clinic) {
    return records.ledger().proofs(clinic);
  }
}
