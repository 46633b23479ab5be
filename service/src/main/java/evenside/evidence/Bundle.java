package evenside.evidence;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Everything that proves one decision, by value. Bytes are as they were committed to, so that a
 * verifier hashes them and never writes JSON.
 *
 * @param schemaVersion version of the schema of the bundle
 * @param decision the entry of the decision and its proof
 * @param documents what the entry commits to; empty if it was erased
 * @param erasure the entry of the erasure; empty if it was not erased
 * @param determinations what clinicians said on it, oldest first
 * @param consistency that the ledger extends an older one; empty if none was asked for
 * @param engineVersion version of the computation that decided; empty if it was erased
 * @param schemaHashes SHA-256 of the published files by path, as the service has them
 * @param keys verifier-key lines of the ledger; trust those you pinned, not these
 */
public record Bundle(
    String schemaVersion,
    Part decision,
    Optional<Documents> documents,
    Optional<Part> erasure,
    List<Statement> determinations,
    Optional<Consistency> consistency,
    Optional<String> engineVersion,
    Map<String, String> schemaHashes,
    List<String> keys) {
  /** What {@code format} says. */
  public static final String FORMAT = "evidence/1";

  /** Keeps its own copies. */
  public Bundle {
    determinations = List.copyOf(determinations);
    schemaHashes = Map.copyOf(schemaHashes);
    keys = List.copyOf(keys);
  }

  /**
   * An entry of the ledger.
   *
   * @param index its place
   * @param leaf its 138 bytes
   * @param proof that it is there, C2SP tlog-proof
   */
  @SuppressWarnings("ArrayRecordComponent") // Never compared.
  public record Part(long index, byte[] leaf, String proof) {}

  /**
   * The documents of a decision, each with the salt of its commitment.
   *
   * @param decision the decision as served
   * @param inputs everything that went in
   * @param criteriaSet the set it was made by; public, so without salt
   */
  @SuppressWarnings("ArrayRecordComponent") // Never compared.
  public record Documents(Salted decision, Salted inputs, byte[] criteriaSet) {}

  /**
   * A document and the salt of its commitment.
   *
   * @param bytes as they were committed to
   * @param salt 32 bytes
   */
  @SuppressWarnings("ArrayRecordComponent") // Never compared.
  public record Salted(byte[] bytes, byte[] salt) {}

  /**
   * A determination.
   *
   * @param part its entry
   * @param document what was said
   */
  public record Statement(Part part, Salted document) {}

  /**
   * That the ledger of an older checkpoint is the start of this one.
   *
   * @param from size of the older one
   * @param hashes the proof, base64
   */
  public record Consistency(long from, List<String> hashes) {
    /** Keeps its own copy. */
    public Consistency {
      hashes = List.copyOf(hashes);
    }
  }
}
