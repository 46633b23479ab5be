package evenside.intake;

import evenside.plan.Adherence;
import evenside.plan.Exercise;
import evenside.plan.FocusArea;
import evenside.plan.FocusAreas;
import evenside.plan.Modifier;
import evenside.schemas.Contract;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/** Reads what trains what. */
public final class PlanReader {
  private final Map<String, Exercise> exercises = new LinkedHashMap<>();
  private final FocusAreas focusAreas;

  /**
   * Reads the published exercises and focus areas.
   *
   * @throws IllegalArgumentException if an area names an exercise that the catalogue has not
   */
  public PlanReader(Contract contract) {
    contract.catalogue("exercises").path("exercises").forEach(this::exercise);
    JsonNode json = contract.catalogue("focus-areas");
    List<FocusArea> areas = new ArrayList<>();
    json.path("focusAreas").forEach(area -> areas.add(area(area)));
    List<Modifier> modifiers = new ArrayList<>();
    json.path("modifiers").forEach(modifier -> modifiers.add(modifier(modifier)));
    List<FocusAreas.Phase> phases = new ArrayList<>();
    contract
        .catalogue("exercises")
        .path("phases")
        .forEach(
            phase ->
                phases.add(
                    new FocusAreas.Phase(
                        phase.path("code").asString(),
                        phase.path("title").asString(),
                        phase.path("usualTiming").asString())));
    Map<String, String> phaseOf = new LinkedHashMap<>();
    json.path("phases")
        .forEach(
            one -> phaseOf.put(one.path("milestone").asString(), one.path("phase").asString()));
    this.focusAreas = new FocusAreas(areas, modifiers, phases, phaseOf);
  }

  public FocusAreas focusAreas() {
    return focusAreas;
  }

  /** True if every run counts as this exercise. */
  public boolean isRunning(String exercise) {
    Exercise known = exercises.get(exercise);
    return known != null && known.family().equals(Adherence.RUNNING);
  }

  /** Codes of all exercises. */
  public Set<String> exercises() {
    return Set.copyOf(exercises.keySet());
  }

  private void exercise(JsonNode json) {
    String code = json.path("code").asString();
    exercises.put(
        code,
        new Exercise(
            code,
            json.path("title").asString(),
            json.path("family").asString(),
            json.path("phase").asString(),
            json.path("usualDose").asString(),
            json.path("supervision").asString().equals("therapist"),
            json.path("mark").asString()));
  }

  private FocusArea area(JsonNode json) {
    return new FocusArea(
        json.path("code").asString(),
        json.path("title").asString(),
        texts(json.path("measures")),
        texts(json.path("exercises")).stream().map(this::known).toList(),
        json.path("testWithTherapist").asBoolean(),
        json.path("retestWeeks").asInt(),
        json.path("note").asString(),
        json.path("mark").asString());
  }

  private Exercise known(String code) {
    Exercise exercise = exercises.get(code);
    if (exercise == null) {
      throw new IllegalArgumentException("the catalogue has no exercise " + code);
    }
    return exercise;
  }

  private static Modifier modifier(JsonNode json) {
    JsonNode when = json.path("when");
    return new Modifier(
        json.path("code").asString(),
        texts(when.path("grafts")),
        texts(when.path("procedures")),
        texts(when.path("limits")),
        texts(json.path("focusAreas")),
        texts(json.path("exercises")),
        texts(json.path("tests")),
        json.path("withholds").asBoolean(),
        json.path("text").asString(),
        json.path("mark").asString());
  }

  private static Set<String> texts(JsonNode array) {
    Set<String> texts = new LinkedHashSet<>();
    array.forEach(item -> texts.add(item.asString()));
    return texts;
  }
}
