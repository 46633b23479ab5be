package evenside.intake;

import java.time.Instant;
import java.time.LocalDate;
import tools.jackson.databind.JsonNode;

/** What a case's schema cannot say. */
final class CaseRules {
  private static final int YOUNGEST = 5;
  private static final int OLDEST = 100;

  private CaseRules() {}

  static void check(JsonNode json, Instant now, RuleFaults faults) {
    CommonRules.date(json, "surgeryDate").ifPresent(day -> surgery(day, json, now, faults));
    harvest(json, faults);
    CommonRules.extensions(json, faults);
  }

  /** A leg that nothing was taken from must not be held for one that was. */
  private static void harvest(JsonNode json, RuleFaults faults) {
    if (json.has("graftHarvestSide") && json.path("graft").asString("").equals("allograft")) {
      faults.add(
          "/graftHarvestSide",
          RuleCode.GRAFT_NOT_HARVESTED,
          "an allograft is not taken from the person; leave this out, or name the graft that was");
    }
  }

  private static void surgery(LocalDate surgery, JsonNode json, Instant now, RuleFaults faults) {
    LocalDate today = CommonRules.latestToday(now);
    if (surgery.isAfter(today)) {
      faults.add(
          "/surgeryDate",
          RuleCode.DATE_IN_FUTURE,
          "a case is recorded on the day of surgery or later",
          "at the latest " + today);
    }
    int age = surgery.getYear() - json.path("birthYear").asInt(surgery.getYear() - YOUNGEST);
    if (age < YOUNGEST || age > OLDEST) {
      faults.add(
          "/birthYear",
          RuleCode.VALUE_IMPLAUSIBLE,
          "does not fit the surgery date",
          YOUNGEST + " to " + OLDEST + " years before the surgery");
    }
  }
}
