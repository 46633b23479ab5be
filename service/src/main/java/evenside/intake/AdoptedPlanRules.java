package evenside.intake;

import evenside.measure.MeasureCatalogue;
import evenside.plan.FocusArea;
import java.time.LocalDate;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import tools.jackson.databind.JsonNode;

/** The rules between the members of an adopted plan and the catalogue. */
final class AdoptedPlanRules {
  private final MeasureCatalogue catalogue;
  private final Set<String> exercises;
  private final Set<String> areas;
  private final RuleFaults faults;

  AdoptedPlanRules(MeasureCatalogue catalogue, PlanReader plans, RuleFaults faults) {
    this.catalogue = catalogue;
    this.exercises = plans.exercises();
    this.areas =
        plans.focusAreas().areas().stream().map(FocusArea::code).collect(Collectors.toSet());
    this.faults = faults;
  }

  void check(JsonNode json) {
    items(json.path("items"));
    retests(json.path("retests"));
    Optional<LocalDate> from = CommonRules.date(json, "from");
    Optional<LocalDate> until = CommonRules.date(json, "until");
    if (from.isPresent() && until.isPresent() && until.get().isBefore(from.get())) {
      faults.add(
          "/until", RuleCode.DATE_BEFORE_START, "before the first day", "from " + from.get());
    }
    CommonRules.precision(json, "", faults);
    CommonRules.extensions(json, faults);
  }

  private void items(JsonNode items) {
    for (int i = 0; i < items.size(); i++) {
      JsonNode item = items.path(i);
      if (!exercises.contains(item.path("exercise").asString(""))) {
        faults.add(
            "/items/" + i + "/exercise",
            RuleCode.EXERCISE_UNKNOWN,
            "the catalogue has no such exercise");
      }
      if (item.has("focusArea") && !areas.contains(item.path("focusArea").asString(""))) {
        faults.add(
            "/items/" + i + "/focusArea",
            RuleCode.FOCUS_AREA_UNKNOWN,
            "the catalogue has no such focus area");
      }
    }
  }

  private void retests(JsonNode retests) {
    for (int i = 0; i < retests.size(); i++) {
      if (catalogue.find(retests.path(i).path("measure").asString("")).isEmpty()) {
        faults.add(
            "/retests/" + i + "/measure",
            RuleCode.MEASURE_UNKNOWN,
            "the catalogue has no such measure");
      }
    }
  }
}
