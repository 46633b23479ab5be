package evenside.intake;

import evenside.criteria.Citation;
import evenside.criteria.Truth;
import evenside.progression.Condition;
import evenside.progression.InputCatalogue;
import evenside.progression.Known;
import evenside.progression.Level;
import evenside.progression.Limits;
import evenside.progression.Outcome;
import evenside.progression.Progression;
import evenside.progression.Rule;
import evenside.progression.Test;
import evenside.signs.EffusionGrade;
import evenside.training.Exercise;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** Reads published progressions, the inputs of their rules and the exercises. */
public final class ProgressionReader {
  private final CatalogueReader catalogue;
  private final InputCatalogue inputs;

  /** Starts from the catalogue of inputs, as its file holds it. */
  public ProgressionReader(CatalogueReader catalogue, JsonNode inputs) {
    this.catalogue = catalogue;
    this.inputs = inputs(inputs);
  }

  public InputCatalogue inputs() {
    return inputs;
  }

  private static InputCatalogue inputs(JsonNode json) {
    List<InputCatalogue.Entry> entries = new ArrayList<>();
    for (JsonNode input : json.path("inputs")) {
      String text = input.path("text").asString();
      String kind = input.path("kind").asString().toUpperCase(Locale.ROOT).replace('-', '_');
      entries.add(
          new InputCatalogue.Entry(
              input.path("code").asString(),
              InputCatalogue.Kind.valueOf(kind),
              text,
              input.path("question").asString(text),
              input.path("redFlag").asBoolean(false)));
    }
    return new InputCatalogue(entries);
  }

  /** The exercises by code, as the catalogue's file holds them. */
  Map<String, Exercise> exercises(JsonNode json) {
    Map<String, Exercise> exercises = new LinkedHashMap<>();
    for (JsonNode exercise : json.path("exercises")) {
      String code = exercise.path("code").asString();
      List<Exercise.Norm> norms = new ArrayList<>();
      exercise.path("norms").forEach(norm -> norms.add(norm(norm)));
      exercises.put(
          code,
          new Exercise(
              code,
              exercise.path("title").asString(),
              exercise.path("family").asString(),
              Exercise.Legs.valueOf(exercise.path("legs").asString().toUpperCase(Locale.ROOT)),
              exercise.path("supervision").asString(),
              norms));
    }
    return exercises;
  }

  private Exercise.Norm norm(JsonNode json) {
    return new Exercise.Norm(
        json.path("people").asString(),
        CriteriaSetReader.sex(json),
        json.path("mean").asDouble(),
        json.path("sd").asDouble(),
        catalogue.citation(json, Map.of()).text());
  }

  /**
   * Reads one progression.
   *
   * @param sha256 fingerprint of its canonical bytes
   * @throws IllegalArgumentException if it cites an unknown source, looks at an unknown input, or
   *     compares one with a value of another kind
   */
  public Progression read(JsonNode json, String sha256) {
    Set<String> exercises = new HashSet<>();
    json.path("exercises").forEach(exercise -> exercises.add(exercise.asString()));
    List<Level> levels = new ArrayList<>();
    json.path("levels").forEach(level -> levels.add(level(level)));
    List<Rule> rules = new ArrayList<>();
    json.path("rules").forEach(rule -> rules.add(rule(rule)));
    List<Progression.Hint> hints = new ArrayList<>();
    for (JsonNode hint : json.path("hints")) {
      hints.add(new Progression.Hint(hint.path("text").asString(), hint.path("mark").asString()));
    }
    return new Progression(
        json.path("id").asString(),
        json.path("version").asString(),
        sha256,
        json.path("title").asString(),
        json.path("appliesTo").asString(),
        exercises,
        Progression.Use.valueOf(json.path("use").asString().toUpperCase(Locale.ROOT)),
        limits(json.path("limits")),
        levels,
        rules,
        hints);
  }

  private static Limits limits(JsonNode json) {
    return new Limits(
        json.path("daysBetween").asInt(Limits.NONE.daysBetween()),
        whole(json.path("sessionsIn7Days")),
        whole(json.path("levelUpsIn7Days")));
  }

  private static Level level(JsonNode json) {
    JsonNode effort = json.path("effortMost");
    return new Level(
        json.path("level").asInt(),
        json.path("title").asString(),
        CatalogueReader.text(json, "track"),
        effort.isNumber() ? effort.asDouble() : null,
        json.path("sessions").asInt(1),
        whole(json.path("daysBetween")));
  }

  private Rule rule(JsonNode json) {
    List<List<Test>> alternatives = new ArrayList<>();
    for (JsonNode alternative : json.path("when")) {
      List<Test> tests = new ArrayList<>();
      alternative.path("all").forEach(test -> tests.add(test(test)));
      alternatives.add(tests);
    }
    JsonNode urgency = json.path("urgency");
    return new Rule(
        json.path("id").asString(),
        new Condition(alternatives),
        Outcome.of(json.path("outcome").asString()),
        json.path("about").asString().equals("knee"),
        json.path("levels").asInt(0),
        json.path("restDays").asInt(0),
        urgency.isString() ? Rule.Urgency.of(urgency.asString()) : null,
        json.path("review").asBoolean(false),
        change(json.path("change")),
        json.path("text").asString(),
        source(json.path("citation")),
        json.path("mark").asString());
  }

  private static Rule.@Nullable Change change(JsonNode json) {
    return json.isObject()
        ? new Rule.Change(
            json.path("of").asString(),
            json.path("least").asDouble(),
            json.path("most").asDouble(),
            json.path("unit").asString())
        : null;
  }

  private @Nullable String source(JsonNode json) {
    if (!json.isObject()) {
      return null;
    }
    Citation citation = catalogue.citation(json, Map.of());
    return citation.place() == null ? citation.text() : citation.text() + ", " + citation.place();
  }

  private Test test(JsonNode json) {
    String input = json.path("input").asString();
    Truth ifUnknown =
        switch (json.path("ifUnknown").asString("")) {
          case "holds" -> Truth.MET;
          case "fails" -> Truth.NOT_MET;
          default -> Truth.UNDETERMINED;
        };
    return new Test(
        input,
        Known.Comparison.of(json.path("is").asString()),
        value(input, json.path("value")),
        ifUnknown);
  }

  private Known value(String input, JsonNode json) {
    InputCatalogue.Kind kind = inputs.get(input).kind();
    boolean fits =
        switch (kind) {
          case YES_NO -> json.isBoolean();
          case NUMBER -> json.isNumber();
          case GRADE, CHOICE -> json.isString();
        };
    if (!fits) {
      throw new IllegalArgumentException(input + " is compared with " + json + ", not " + kind);
    }
    return switch (kind) {
      case YES_NO -> Known.flag(json.asBoolean());
      case NUMBER -> Known.number(json.asDouble());
      case GRADE -> Known.number(EffusionGrade.of(json.asString()).rank());
      case CHOICE -> new Known.Choice(json.asString());
    };
  }

  private static @Nullable Integer whole(JsonNode json) {
    return json.isNumber() ? json.asInt() : null;
  }
}
