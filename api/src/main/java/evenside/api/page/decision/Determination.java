package evenside.api.page.decision;

import evenside.api.page.Figures;
import evenside.api.page.Texts;
import java.util.List;
import tools.jackson.databind.JsonNode;

/**
 * What a clinician said on a decision.
 *
 * @param statement cleared, not cleared or deferred: the clinician's word
 * @param clinician who, as a reference with the role
 * @param when when it was said
 * @param reason why; may be empty
 * @param restrictions what holds until the next look
 * @param differs true if it says something else than the outcome
 */
public record Determination(
    String statement,
    String clinician,
    String when,
    String reason,
    List<String> restrictions,
    boolean differs) {
  /** Keeps its own copy. */
  public Determination {
    restrictions = List.copyOf(restrictions);
  }

  static List<Determination> all(JsonNode list) {
    return list.path("determinations").valueStream().map(Determination::of).toList();
  }

  private static Determination of(JsonNode record) {
    JsonNode said = record.path("determination");
    JsonNode clinician = said.path("clinician");
    String role = clinician.path("role").asString("").replace('-', ' ');
    String when =
        said.has("determinedAt")
            ? Figures.dayOf(said.path("determinedAt").asString())
            : Figures.moment(record.path("recordedAt").asString());
    return new Determination(
        Texts.known("statement", said.path("statement").asString()),
        clinician.path("reference").asString() + (role.isEmpty() ? "" : ", " + role),
        when,
        said.path("reason").asString(""),
        said.path("restrictions").valueStream().map(JsonNode::asString).toList(),
        record.path("differs").asBoolean(false));
  }
}
