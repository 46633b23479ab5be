package evenside.document;

import evenside.assessment.AssessedBattery;
import evenside.assessment.Repetitions;
import evenside.limb.Side;
import evenside.measure.Measured;
import evenside.quantity.Quantity;
import evenside.symmetry.SymmetryIndex;
import java.util.List;
import java.util.Objects;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** What was computed from one battery, as members to be put into a record or an assessment. */
public final class BatteryDocument {
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;
  private static final String CLASSES =
      "Mau-Moeller et al. Clin J Sport Med 2017, doi 10.1097/JSM.0000000000000493";

  private BatteryDocument() {}

  /**
   * Adds symmetry, questionnaire scores, the numbers worked out, and the consistency of
   * repetitions.
   *
   * @param indices other symmetry indices asked for
   */
  public static void put(ObjectNode json, AssessedBattery assessed, List<SymmetryIndex> indices) {
    json.set("symmetry", SymmetryDocument.of(assessed.comparisons(), indices));
    json.set("scores", ScoreDocument.of(assessed.scores()));
    ArrayNode workedOut = json.putArray("workedOut");
    assessed.workedOut().forEach(one -> workedOut.add(workedOut(one)));
    ArrayNode repetitions = json.putArray("repetitions");
    assessed.repetitions().forEach(one -> repetitions.add(repetitions(one)));
  }

  private static ObjectNode workedOut(Measured measured) {
    ObjectNode json = JSON.objectNode();
    json.put("aspect", measured.aspect().code());
    ArrayNode from = json.putArray("from");
    measured.inputs().forEach(input -> from.add(input.pointer()));
    json.put("measure", measured.measure());
    json.set("protocol", FindingDocument.protocol(measured.protocol()));
    FindingDocument.value(json, "value", measured.value());
    return json;
  }

  private static ObjectNode repetitions(Repetitions repetitions) {
    ObjectNode json = JSON.objectNode();
    json.put("pointer", repetitions.result().pointer());
    json.put("measure", repetitions.result().measure().code());
    Side side = Objects.requireNonNull(repetitions.result().side());
    json.put("side", side.code());
    json.put("repetitions", repetitions.consistency().repetitions());
    Quantity variation = new Quantity(repetitions.consistency().variation(), "%");
    json.set("coefficientOfVariation", FindingDocument.quantity(variation));
    json.put("consistency", repetitions.consistency().grade().code());
    json.put("source", CLASSES);
    return json;
  }
}
