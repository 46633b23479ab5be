package evenside.ledger;

import java.util.Optional;

/** What an entry of the ledger says happened, and which of its fields that fills. */
public enum EntryType {
  /** A decision: fingerprint of its criteria set, commitments to the decision and its inputs. */
  DECISION(1, false, true, true, true),
  /** A criteria set took effect: its fingerprint. */
  CRITERIA_SET(2, false, true, false, false),
  /** A key starts to sign: SHA-256 of its verifier-key line. */
  KEY(3, false, false, true, false),
  /** The documents of the entry it refers to were erased. */
  ERASURE(4, true, false, false, false),
  /** First entry of a ledger that goes on from an older one: its root, hash of its checkpoint. */
  CONTINUATION(5, false, false, true, true),
  /** A clinician's determination on the decision it refers to: commitment to it. */
  DETERMINATION(6, true, false, true, false),
  /** A battery that corrects the one it refers to: commitment to the new one. */
  CORRECTION(7, true, false, true, false);

  private final int code;
  private final boolean refers;
  private final boolean criteria;
  private final boolean document;
  private final boolean inputs;

  EntryType(int code, boolean refers, boolean criteria, boolean document, boolean inputs) {
    this.code = code;
    this.refers = refers;
    this.criteria = criteria;
    this.document = document;
    this.inputs = inputs;
  }

  /** The byte in the entry. */
  public int code() {
    return code;
  }

  boolean refers() {
    return refers;
  }

  boolean fillsCriteria() {
    return criteria;
  }

  boolean fillsDocument() {
    return document;
  }

  boolean fillsInputs() {
    return inputs;
  }

  static Optional<EntryType> of(int code) {
    for (EntryType type : values()) {
      if (type.code == code) {
        return Optional.of(type);
      }
    }
    return Optional.empty();
  }
}
