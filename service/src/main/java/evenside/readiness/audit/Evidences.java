package evenside.readiness.audit;

import evenside.decision.Engine;
import evenside.document.Document;
import evenside.evidence.Bundle;
import evenside.evidence.BundleJson;
import evenside.evidence.PublishedFiles;
import evenside.ledger.EntryType;
import evenside.ledger.Proofs;
import evenside.merkle.Hash;
import evenside.note.Checkpoint;
import evenside.readiness.recording.Records;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.schemas.StrictJson;
import evenside.store.Reading;
import evenside.store.StoredDecision;
import evenside.store.StoredDetermination;
import evenside.store.ledger.StoredSalts;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.UUID;
import java.util.function.Function;

/** The proof of a past decision in one file. */
public final class Evidences {
  private final Records records;
  private final Map<String, String> schemaHashes;

  public Evidences(Records records) {
    this.records = records;
    this.schemaHashes = PublishedFiles.of(records.published().contract(), Engine.VERSION).sha256();
  }

  /**
   * The evidence bundle of a decision, also of an erased one.
   *
   * @param since size of an older checkpoint that the reader holds; the bundle then proves that
   *     this ledger extends it
   * @throws Refused {@link Refusal#CONFLICT} if the ledger has no entry of it, or is smaller than
   *     {@code since}
   */
  public Document bundle(String clinic, String decisionId, OptionalLong since) {
    UUID id = Records.uuid(decisionId).orElseThrow(() -> Records.notFound("decision"));
    return BundleJson.write(signed(clinic, reading -> bundle(reading, clinic, id, since)));
  }

  /** Only that the decision's entry is in the ledger, as text. */
  public String proof(String clinic, String decisionId) {
    UUID id = Records.uuid(decisionId).orElseThrow(() -> Records.notFound("decision"));
    return signed(
            clinic,
            reading -> proved(reading, clinic, id, Proofs.within(reading.ledger(), clinic), 0))
        .proof()
        .text();
  }

  /** In one transaction, so that all proofs are for one head. */
  private <T> T signed(String clinic, Function<Reading, T> work) {
    return records.ledger().signed(clinic, () -> records.store().read(work));
  }

  private Bundle bundle(Reading reading, String clinic, UUID id, OptionalLong since) {
    Proofs proofs = Proofs.within(reading.ledger(), clinic);
    Proofs.Proved proved = proved(reading, clinic, id, proofs, since.orElse(0));
    Optional<StoredDecision> stored = reading.decision(clinic, id);
    Optional<StoredSalts> salts = reading.ledger().salts(clinic, id);
    Optional<Bundle.Documents> documents = Optional.empty();
    if (stored.isPresent() && salts.isPresent()) {
      Document criteria = Replays.criteria(reading, records, stored.get());
      documents = Optional.of(documents(stored.get(), salts.get(), criteria));
    }
    List<Proofs.Proved> about = proofs.about(id);
    return new Bundle(
        records.schemaVersion(),
        part(proved),
        documents,
        erasure(about),
        determinations(reading, clinic, about),
        since.isPresent()
            ? Optional.of(consistency(proofs, proved, since.getAsLong()))
            : Optional.empty(),
        stored.map(Evidences::engineVersion),
        schemaHashes,
        proofs.keys().stream().map(key -> key.key().line()).toList());
  }

  private static Proofs.Proved proved(
      Reading reading, String clinic, UUID id, Proofs proofs, long since) {
    Optional<Proofs.Proved> proved =
        proofs.proof(id, since).filter(found -> found.entry().type() == EntryType.DECISION);
    if (proved.isPresent()) {
      return proved.get();
    }
    if (reading.decision(clinic, id).isEmpty()) {
      throw Records.notFound("decision");
    }
    throw Refused.because(
        Refusal.CONFLICT,
        "no checkpoint covers this decision: it was recorded while the ledger was off, or after the"
            + " last checkpoint of a ledger that has ended");
  }

  private static Bundle.Part part(Proofs.Proved proved) {
    return new Bundle.Part(proved.proof().index(), proved.entry().bytes(), proved.proof().text());
  }

  private static Bundle.Documents documents(
      StoredDecision stored, StoredSalts salts, Document criteria) {
    return new Bundle.Documents(
        new Bundle.Salted(stored.document(), salts.document()),
        new Bundle.Salted(stored.inputs(), salts.inputs().orElse(new byte[0])),
        criteria.bytes());
  }

  private static Optional<Bundle.Part> erasure(List<Proofs.Proved> about) {
    return about.stream()
        .filter(one -> one.entry().type() == EntryType.ERASURE)
        .map(Evidences::part)
        .findFirst();
  }

  private static List<Bundle.Statement> determinations(
      Reading reading, String clinic, List<Proofs.Proved> about) {
    List<Bundle.Statement> statements = new ArrayList<>();
    for (Proofs.Proved one : about) {
      UUID determinationId = one.entry().id();
      Optional<StoredDetermination> stored = reading.audit().determination(clinic, determinationId);
      Optional<StoredSalts> salts = reading.ledger().salts(clinic, determinationId);
      if (stored.isPresent() && salts.isPresent()) {
        statements.add(
            new Bundle.Statement(
                part(one), new Bundle.Salted(stored.get().document(), salts.get().document())));
      }
    }
    return statements;
  }

  private static Bundle.Consistency consistency(Proofs proofs, Proofs.Proved proved, long since) {
    long size = Checkpoint.parse(proved.proof().checkpoint().text()).head().size();
    List<String> hashes =
        proofs
            .consistency(proved.ledger(), since, size)
            .map(found -> found.stream().map(Hash::base64).toList())
            .orElseThrow(
                () ->
                    Refused.because(
                        Refusal.CONFLICT,
                        "the ledger has %d entries, so it cannot extend one of %d"
                            .formatted(size, since)));
    return new Bundle.Consistency(since, hashes);
  }

  private static String engineVersion(StoredDecision stored) {
    return StrictJson.read(stored.inputs(), StrictJson.Limits.OWN).path("engineVersion").asString();
  }
}
