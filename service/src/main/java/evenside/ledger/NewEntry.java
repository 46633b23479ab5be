package evenside.ledger;

import evenside.merkle.Hash;
import evenside.store.ledger.StoredSalts;
import java.util.Optional;
import java.util.UUID;

/**
 * An entry to be added. Commitments are made here, before the turn to append comes, as hashing long
 * documents takes longer than adding them.
 */
public final class NewEntry {
  private final EntryType type;
  private final UUID id;
  private final Optional<UUID> refersTo;
  private final Hash criteria;
  private final Hash document;
  private final Hash inputs;
  private final Optional<byte[]> criteriaDocument;
  private final Optional<StoredSalts> salts;

  private NewEntry(
      EntryType type,
      UUID id,
      Optional<UUID> refersTo,
      Optional<byte[]> criteriaDocument,
      Hash document,
      Hash inputs,
      Optional<StoredSalts> salts) {
    this.type = type;
    this.id = id;
    this.refersTo = refersTo;
    this.criteria = criteriaDocument.map(Hash::sha256).orElse(Entry.ZERO);
    this.document = document;
    this.inputs = inputs;
    this.criteriaDocument = criteriaDocument;
    this.salts = salts;
  }

  /**
   * A decision.
   *
   * @param criteriaSet bytes of the set it was made by
   * @param document bytes of the decision
   * @param inputs bytes of everything that went in
   */
  public static NewEntry decision(UUID id, byte[] criteriaSet, byte[] document, byte[] inputs) {
    byte[] documentSalt = Commitment.newSalt();
    byte[] inputsSalt = Commitment.newSalt();
    return new NewEntry(
        EntryType.DECISION,
        id,
        Optional.empty(),
        Optional.of(criteriaSet),
        Commitment.of(documentSalt, document),
        Commitment.of(inputsSalt, inputs),
        Optional.of(new StoredSalts(documentSalt, Optional.of(inputsSalt))));
  }

  /** A criteria set that a clinic publishes. */
  public static NewEntry criteriaSet(UUID id, byte[] criteriaSet) {
    return new NewEntry(
        EntryType.CRITERIA_SET,
        id,
        Optional.empty(),
        Optional.of(criteriaSet),
        Entry.ZERO,
        Entry.ZERO,
        Optional.empty());
  }

  /** A clinician's determination on a decision. */
  public static NewEntry determination(UUID id, UUID decisionId, byte[] document) {
    return about(EntryType.DETERMINATION, id, decisionId, document);
  }

  /** A battery that corrects another. */
  public static NewEntry correction(UUID batteryId, UUID replaced, byte[] document) {
    return about(EntryType.CORRECTION, batteryId, replaced, document);
  }

  private static NewEntry about(EntryType type, UUID id, UUID refersTo, byte[] document) {
    byte[] salt = Commitment.newSalt();
    return new NewEntry(
        type,
        id,
        Optional.of(refersTo),
        Optional.empty(),
        Commitment.of(salt, document),
        Entry.ZERO,
        Optional.of(new StoredSalts(salt, Optional.empty())));
  }

  /** The erasure of the documents of an entry. */
  public static NewEntry erasure(UUID id, UUID erased) {
    return new NewEntry(
        EntryType.ERASURE,
        id,
        Optional.of(erased),
        Optional.empty(),
        Entry.ZERO,
        Entry.ZERO,
        Optional.empty());
  }

  static NewEntry key(UUID id, Hash verifierKey) {
    return bare(EntryType.KEY, id, verifierKey, Entry.ZERO);
  }

  static NewEntry continuation(UUID id, Hash oldRoot, Hash oldCheckpoint) {
    return bare(EntryType.CONTINUATION, id, oldRoot, oldCheckpoint);
  }

  private static NewEntry bare(EntryType type, UUID id, Hash document, Hash inputs) {
    return new NewEntry(
        type, id, Optional.empty(), Optional.empty(), document, inputs, Optional.empty());
  }

  UUID id() {
    return id;
  }

  EntryType type() {
    return type;
  }

  Hash criteria() {
    return criteria;
  }

  Optional<byte[]> criteriaDocument() {
    return criteriaDocument;
  }

  Optional<StoredSalts> salts() {
    return salts;
  }

  Entry at(long recordedAt) {
    return new Entry(type, recordedAt, id, refersTo, criteria, document, inputs);
  }
}
