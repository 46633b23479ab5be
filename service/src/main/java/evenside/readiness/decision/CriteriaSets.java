package evenside.readiness.decision;

import evenside.criteria.CriteriaSet;
import evenside.document.Document;
import evenside.intake.RuleCode;
import evenside.ledger.NewEntry;
import evenside.readiness.computing.Published;
import evenside.readiness.recording.ClinicSets;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Recording;
import evenside.readiness.recording.Records;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.schemas.Fault;
import evenside.store.Reading;
import evenside.store.StoredCriteriaSet;
import java.util.List;
import java.util.Optional;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * The criteria sets a clinic can use: the published ones, and its own. A version never changes once
 * it is there.
 */
public final class CriteriaSets {
  private static final String KIND = "criteria-set";

  private final Records records;

  public CriteriaSets(Records records) {
    this.records = records;
  }

  /**
   * Publishes a version of a clinic's own set. The same content again changes nothing.
   *
   * @throws Refused {@link Refusal#INVALID} with every fault, also where a measure, unit or bound
   *     does not fit the catalogue or the id is that of a published set; {@link Refusal#CONFLICT}
   *     if the clinic has that version with other content
   */
  public Recorded publish(String clinic, JsonNode json) {
    records.accept(KIND, json);
    String id = json.path("id").asString();
    String version = json.path("version").asString();
    if (records.published().reserved(id)) {
      throw Refused.faulty(List.of(reserved()));
    }
    Document content = Document.of(json);
    StoredCriteriaSet stored =
        new StoredCriteriaSet(
            clinic, id, version, content.sha256(), content.bytes(), records.now());
    return records
        .recording()
        .record(
            clinic,
            Optional.empty(),
            (whose, which) -> get(whose, id, version),
            reading -> {
              Optional<Recorded> twin = twin(reading, stored);
              return twin.isPresent() ? twin.get() : draft(stored);
            });
  }

  private Recording.Draft draft(StoredCriteriaSet stored) {
    Document content = Document.ofCanonical(stored.document());
    return new Recording.Draft(
        KIND,
        new Recorded(name(stored), content, Recorded.Novelty.CREATED),
        Optional.of(() -> NewEntry.criteriaSet(records.newId(), content.bytes())),
        writing -> writing.insertCriteriaSet(stored),
        later -> twin(later, stored));
  }

  private static String name(StoredCriteriaSet stored) {
    return stored.id() + "/" + stored.version();
  }

  /**
   * One version of a published set or of the clinic's own.
   *
   * @throws Refused {@link Refusal#NOT_FOUND} if there is none
   */
  public Document get(String clinic, String id, String version) {
    return records
        .sets(clinic)
        .document(id + "/" + version)
        .orElseThrow(() -> Records.notFound("criteria set"));
  }

  /** True if the id is that of a published set: the same document for every clinic. */
  public boolean isPublished(String id) {
    return records.published().reserved(id);
  }

  /** The published sets and the clinic's own, by name, milestone and source. */
  public Document list(String clinic) {
    ObjectNode json = published(records.published());
    ArrayNode sets = (ArrayNode) json.path("criteriaSets");
    for (StoredCriteriaSet stored : records.store().read(reading -> reading.criteriaSets(clinic))) {
      sets.add(
          entry(ClinicSets.read(records.published(), stored)).put("usual", false).put("own", true));
    }
    return Document.of(json);
  }

  /** The published sets alone. */
  public static ObjectNode published(Published published) {
    ObjectNode json = Records.object();
    json.put("schemaVersion", published.contract().schemaVersion());
    ArrayNode sets = json.putArray("criteriaSets");
    for (CriteriaSet set : published.sets()) {
      boolean usual = published.usualSet(set.milestone()).equals(Optional.of(set));
      sets.add(entry(set).put("usual", usual).put("own", false));
    }
    return json;
  }

  private static ObjectNode entry(CriteriaSet set) {
    ObjectNode entry = Records.object();
    entry.put("id", set.id()).put("version", set.version()).put("title", set.title());
    entry.put("milestone", set.milestone()).put("designedFor", set.designedFor());
    entry.put("source", set.source().text()).put("sha256", set.sha256());
    return entry;
  }

  /** The version that is there already; refused if its content differs. */
  private static Optional<Recorded> twin(Reading reading, StoredCriteriaSet sent) {
    Optional<StoredCriteriaSet> found =
        reading.criteriaSet(sent.clinic(), sent.id(), sent.version());
    if (found.isPresent() && !found.get().sha256().equals(sent.sha256())) {
      throw Refused.because(
          Refusal.CONFLICT,
          "this version exists with other content and never changes; publish a new version");
    }
    return found.map(
        stored ->
            new Recorded(
                name(stored), Document.ofCanonical(stored.document()), Recorded.Novelty.UNCHANGED));
  }

  private static Fault reserved() {
    return Fault.at(
        JsonPointer.compile("/id"),
        RuleCode.CRITERIA_SET_RESERVED.code(),
        "a published criteria set has this id; a clinic’s own set needs an id of its own");
  }
}
