package evenside.api.page.decision;

import evenside.api.page.Figures;
import evenside.api.page.Texts;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
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
    return new Determination(
        Texts.known("statement", said.path("statement").asString()),
        clinician.path("reference").asString() + (role.isEmpty() ? "" : ", " + role),
        when(said.path("determinedAt").asString(""), record.path("recordedAt").asString()),
        said.path("reason").asString(""),
        said.path("restrictions").valueStream().map(JsonNode::asString).toList(),
        record.path("differs").asBoolean(false));
  }

  /** The newest record stands first, so one that was said long before must show when it came. */
  private static String when(String determinedAt, String recordedAt) {
    if (determinedAt.isEmpty()) {
      return Figures.moment(recordedAt);
    }
    String said = Figures.dayOf(determinedAt);
    ZoneOffset there = OffsetDateTime.parse(determinedAt).getOffset();
    boolean sameDay =
        Figures.dayOf(Instant.parse(recordedAt).atOffset(there).toString()).equals(said);
    return sameDay
        ? said
        : Texts.text("decision.determination.recorded", said, Figures.moment(recordedAt));
  }
}
