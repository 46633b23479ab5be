package evenside.document;

import evenside.assessment.AssessedBattery;
import evenside.assessment.Repetitions;
import evenside.limb.Side;
import evenside.measure.Input;
import evenside.measure.Measured;
import evenside.symmetry.SymmetryIndex;
import java.util.List;
import java.util.Objects;
import tools.jackson.databind.JsonNode;

/** What was computed from one battery, as JSON. */
public final class BatteryDocument {
  private static final String CLASSES =
      "Mau-Moeller et al. Clin J Sport Med 2017, doi 10.1097/JSM.0000000000000493";

  private BatteryDocument() {}

  /**
   * A battery as it was received.
   *
   * @param id of the record
   * @param caseId of its case
   * @param receivedAt when, as text
   * @param sent the battery
   * @param warnings what was noticed in it
   */
  public record Received(
      String schemaVersion,
      String id,
      String caseId,
      String receivedAt,
      Document sent,
      List<? extends JsonNode> warnings) {}

  /** The record of a battery: what was sent, and what follows from it. */
  public static Document record(Received received, AssessedBattery assessed) {
    return Document.written(json -> record(json, received, assessed));
  }

  private static void record(CanonicalWriter json, Received received, AssessedBattery assessed) {
    json.object().name("battery").document(received.sent());
    json.put("batteryId", received.id()).put("caseId", received.caseId());
    json.put("receivedAt", received.receivedAt());
    repetitions(json, assessed);
    json.put("schemaVersion", received.schemaVersion());
    scores(json, assessed);
    json.put("sha256", received.sent().sha256());
    symmetry(json, assessed, List.of());
    json.name("warnings").array(received.warnings(), CanonicalWriter::tree);
    workedOut(json, assessed);
    json.end();
  }

  /**
   * Symmetry, questionnaire scores, the numbers worked out, and the consistency of repetitions, as
   * an object.
   *
   * @param indices other symmetry indices asked for
   */
  public static Document computed(AssessedBattery assessed, List<SymmetryIndex> indices) {
    return Document.written(
        json -> {
          json.object();
          computed(json, assessed, indices);
          json.end();
        });
  }

  /** The same, as members of an object. */
  static void computed(
      CanonicalWriter json, AssessedBattery assessed, List<SymmetryIndex> indices) {
    repetitions(json, assessed);
    scores(json, assessed);
    symmetry(json, assessed, indices);
    workedOut(json, assessed);
  }

  private static void repetitions(CanonicalWriter json, AssessedBattery assessed) {
    json.name("repetitions").array(assessed.repetitions(), BatteryDocument::repetitions);
  }

  private static void scores(CanonicalWriter json, AssessedBattery assessed) {
    json.name("scores").array(assessed.scores(), ScoreDocument::write);
  }

  private static void symmetry(
      CanonicalWriter json, AssessedBattery assessed, List<SymmetryIndex> indices) {
    SymmetryDocument.write(json.name("symmetry"), assessed.comparisons(), indices);
  }

  private static void workedOut(CanonicalWriter json, AssessedBattery assessed) {
    json.name("workedOut").array(assessed.workedOut(), BatteryDocument::workedOut);
  }

  private static void workedOut(CanonicalWriter json, Measured measured) {
    json.object().put("aspect", measured.aspect().code());
    json.name("from").array();
    for (Input input : measured.inputs()) {
      json.text(input.pointer());
    }
    json.end().put("measure", measured.measure());
    ProtocolDocument.write(json.name("protocol"), measured.protocol());
    FindingDocument.value(json.name("value"), measured.value());
    json.end();
  }

  private static void repetitions(CanonicalWriter json, Repetitions repetitions) {
    Side side = Objects.requireNonNull(repetitions.result().side());
    json.object().name("coefficientOfVariation");
    FindingDocument.quantity(json, repetitions.consistency().variation(), "%");
    json.put("consistency", repetitions.consistency().grade().code());
    json.put("measure", repetitions.result().measure().code());
    json.put("pointer", repetitions.result().pointer());
    json.put("repetitions", repetitions.consistency().repetitions());
    json.put("side", side.code()).put("source", CLASSES).end();
  }
}
