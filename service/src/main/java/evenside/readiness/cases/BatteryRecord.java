package evenside.readiness.cases;

import evenside.assessment.AssessedBattery;
import evenside.document.BatteryDocument;
import evenside.document.Document;
import evenside.document.ResultDocument;
import evenside.limb.Side;
import evenside.readiness.computing.Scoring;
import evenside.schemas.Fault;
import evenside.schemas.StrictJson;
import evenside.store.StoredBattery;
import evenside.symmetry.SymmetryIndex;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.UUID;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A battery as it is kept and served: what was sent, with the symmetry and scores computed from it.
 */
public final class BatteryRecord {
  private BatteryRecord() {}

  /**
   * A battery taken from the store.
   *
   * @param stored the record
   * @param content the battery as it was sent
   * @param performedAt when, with the clinic's offset
   */
  public record Loaded(StoredBattery stored, JsonNode content, OffsetDateTime performedAt) {
    /** Its day on the clinic's calendar. */
    public LocalDate performedOn() {
      return performedAt.toLocalDate();
    }
  }

  /** Reads one as it is kept. */
  public static Loaded load(StoredBattery stored) {
    JsonNode content = StrictJson.read(stored.document(), StrictJson.Limits.OWN).path("battery");
    OffsetDateTime at = OffsetDateTime.parse(content.path("performedAt").asString());
    return new Loaded(stored, content, at);
  }

  /** The kept document with other symmetry indices beside the limb symmetry index. */
  static Document with(List<SymmetryIndex> indices, Document kept, Scoring scoring) {
    ObjectNode json = (ObjectNode) StrictJson.read(kept.bytes(), StrictJson.Limits.OWN);
    Document computed = BatteryDocument.computed(assessed(json, scoring), indices);
    json.setAll((ObjectNode) StrictJson.read(computed.bytes(), StrictJson.Limits.OWN));
    return Document.of(json);
  }

  /** What each result of the kept document counts as. */
  static JsonNode results(Document kept, Scoring scoring) {
    JsonNode json = StrictJson.read(kept.bytes(), StrictJson.Limits.OWN);
    Document results = ResultDocument.of(assessed(json, scoring));
    return StrictJson.read(results.bytes(), StrictJson.Limits.OWN);
  }

  private static AssessedBattery assessed(JsonNode json, Scoring scoring) {
    JsonNode sent = json.path("battery");
    Side operated = Side.of(sent.path("operatedSide").asString());
    return scoring.battery(json.path("batteryId").asString(), sent, operated);
  }

  static Document document(
      String schemaVersion,
      UUID id,
      String caseId,
      Instant receivedAt,
      Document content,
      AssessedBattery assessed,
      List<Fault> warnings) {
    return BatteryDocument.record(
        new BatteryDocument.Received(
            schemaVersion,
            id.toString(),
            caseId,
            receivedAt.toString(),
            content,
            warnings.stream().map(Fault::toJson).toList()),
        assessed);
  }
}
