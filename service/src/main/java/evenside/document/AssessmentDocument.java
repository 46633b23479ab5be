package evenside.document;

import evenside.assessment.AssessedBattery;
import evenside.decision.Decision;
import evenside.symmetry.SymmetryIndex;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The answer to a question about an inline case, as JSON. */
public final class AssessmentDocument {
  private AssessmentDocument() {}

  /**
   * What was found.
   *
   * @param batteries with what was computed from each
   * @param indices other symmetry indices asked for
   * @param decisions one for each criteria set, in the order asked for
   * @param advice on the next training, or null without a training record
   */
  public record Found(
      String schemaVersion,
      List<Dated> batteries,
      List<SymmetryIndex> indices,
      List<Decision> decisions,
      @Nullable Document advice) {}

  /**
   * A battery with the time of it as it was sent.
   *
   * @param performedAt when, as text
   * @param assessed with what was computed from it
   */
  public record Dated(String performedAt, AssessedBattery assessed) {}

  public static Document of(Found found) {
    return Document.written(json -> write(json, found));
  }

  private static void write(CanonicalWriter json, Found found) {
    json.object();
    if (found.advice() != null) {
      json.name("advice").document(found.advice());
    }
    ComparisonDocument.write(json.name("comparison"), found.decisions());
    json.name("decisions").array(found.decisions(), DecisionDocument::judgement);
    json.put("recorded", false).put("schemaVersion", found.schemaVersion());
    json.name("symmetry").array(found.batteries(), (to, one) -> battery(to, one, found.indices()));
    json.end();
  }

  private static void battery(CanonicalWriter json, Dated one, List<SymmetryIndex> indices) {
    json.object().put("battery", one.assessed().battery().id());
    json.put("performedAt", one.performedAt());
    BatteryDocument.computed(json, one.assessed(), indices);
    json.end();
  }
}
