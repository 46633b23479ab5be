package evenside.readiness.computing;

import evenside.criteria.CriteriaSet;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * What a decision is asked for.
 *
 * @param set the criteria set
 * @param asOf the date to decide for
 * @param maxAgeDays oldest result allowed, or null
 */
public record DecisionRequest(CriteriaSet set, LocalDate asOf, @Nullable Integer maxAgeDays) {

  /**
   * Reads a request.
   *
   * @param clinic the clinic's offset from UTC, as its newest battery shows it
   */
  public static DecisionRequest read(
      JsonNode json, Instant now, ZoneOffset clinic, CriteriaSet set) {
    return new DecisionRequest(set, asOf(json, now, clinic), maxAgeDays(json));
  }

  /** The date asked for, or today on the clinic's calendar: a battery of this morning counts. */
  public static LocalDate asOf(JsonNode json, Instant now, ZoneOffset clinic) {
    String asked = json.path("asOf").asString("");
    return asked.isEmpty() ? LocalDate.ofInstant(now, clinic) : LocalDate.parse(asked);
  }

  /** Oldest result allowed, in days; null where none is asked for. */
  public static @Nullable Integer maxAgeDays(JsonNode json) {
    JsonNode asked = json.path("maxResultAgeDays");
    return asked.isNumber() ? asked.asInt() : null;
  }
}
