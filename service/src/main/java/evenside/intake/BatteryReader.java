package evenside.intake;

import evenside.battery.Battery;
import evenside.battery.FilledIn;
import evenside.battery.NotPerformed;
import evenside.battery.Result;
import evenside.battery.Trial;
import evenside.hop.JumpHeight;
import evenside.limb.Side;
import evenside.measure.Aggregation;
import evenside.measure.Measure;
import evenside.measure.MeasureCatalogue;
import evenside.measure.Protocol;
import evenside.measure.Value;
import evenside.quantity.Quantity;
import evenside.questionnaire.Instruments;
import evenside.signs.EffusionGrade;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * Reads a battery that its schema and rules have already accepted. The families differ only in
 * which members describe the way of testing: every member that is not the measure, the side or a
 * number is a term of the {@link Protocol}.
 */
public final class BatteryReader {
  /** Members of a result that do not say how it was tested, or do not change its number. */
  private static final Set<String> NOT_PROTOCOL =
      Set.of(
          "measure",
          "side",
          "unit",
          "trials",
          "aggregation",
          "value",
          "grade",
          "action",
          "practiceTrials");

  /** Terms that criteria ask for by number. */
  private static final Set<String> PLAIN = Set.of(Protocol.SPEED, Protocol.ANGLE);

  private final MeasureCatalogue catalogue;
  private final SheetReader sheets;

  public BatteryReader(MeasureCatalogue catalogue, Instruments instruments) {
    this.catalogue = catalogue;
    this.sheets = new SheetReader(instruments);
  }

  /**
   * Reads one battery.
   *
   * @param id identifier of the record, or its place in a request
   */
  public Battery read(String id, JsonNode json) {
    List<Result> results = new ArrayList<>();
    List<FilledIn> questionnaires = new ArrayList<>();
    List<NotPerformed> notPerformed = new ArrayList<>();
    for (Map.Entry<String, JsonNode> family : byName(json.path("results"))) {
      int index = 0;
      for (JsonNode item : family.getValue()) {
        String pointer = "/results/" + family.getKey() + "/" + index++;
        switch (family.getKey()) {
          case "notPerformed" -> notPerformed.add(notPerformed(item));
          case "questionnaire" -> questionnaires.add(new FilledIn(pointer, sheets.read(item)));
          default -> results.add(result(pointer, family.getKey(), item));
        }
      }
    }
    results.sort(Comparator.comparingInt(this::position));
    return new Battery(
        id,
        OffsetDateTime.parse(json.path("performedAt").asString()),
        quantity(json.path("bodyMass")),
        quantity(json.path("height")),
        limbLengths(json.path("limbLength")),
        quantity(json.path("shankLength")),
        results,
        questionnaires,
        notPerformed);
  }

  /** The order of members means nothing in JSON, so it must not show in what is computed. */
  private static List<Map.Entry<String, JsonNode>> byName(JsonNode results) {
    return results.properties().stream().sorted(Map.Entry.comparingByKey()).toList();
  }

  private int position(Result result) {
    return catalogue.position(result.measure().code());
  }

  private static NotPerformed notPerformed(JsonNode json) {
    return new NotPerformed(
        json.path("measure").asString(), side(json), json.path("reason").asString());
  }

  private Result result(String pointer, String family, JsonNode json) {
    Measure measure = catalogue.get(json.path("measure").asString());
    Protocol protocol = protocol(family, json);
    if (!json.has("trials")) {
      return Result.ofValue(pointer, measure, side(json), protocol, value(measure, json));
    }
    List<Trial> trials = new ArrayList<>();
    json.path("trials").forEach(trial -> trials.add(trial(trial)));
    return Result.ofTrials(
        pointer, measure, side(json), protocol, trials, aggregation(json, measure));
  }

  private static Value value(Measure measure, JsonNode json) {
    if (json.has("grade")) {
      return new Value.Grade(EffusionGrade.of(json.path("grade").asString()));
    }
    JsonNode number = json.path("value");
    return number.isBoolean()
        ? new Value.Fact(number.asBoolean())
        : Value.Amount.of(number.asDouble(), measure.unit());
  }

  private static Trial trial(JsonNode json) {
    Double flightTime = quantity(json.path("flightTime"));
    return new Trial(
        score(json, flightTime),
        CatalogueReader.text(json, "invalidReason"),
        flightTime,
        quantity(json.path("contactTime")));
  }

  private static @Nullable Double score(JsonNode trial, @Nullable Double flightTime) {
    if (flightTime != null) {
      return JumpHeight.fromFlightTime(flightTime);
    }
    return number(trial.path("value"));
  }

  private static @Nullable Double number(JsonNode json) {
    return json.isNumber() ? json.asDouble() : null;
  }

  private static Map<Side, Double> limbLengths(JsonNode json) {
    Map<Side, Double> lengths = new EnumMap<>(Side.class);
    json.properties()
        .forEach(
            side -> lengths.put(Side.of(side.getKey()), side.getValue().path("value").asDouble()));
    return lengths;
  }

  private static Aggregation aggregation(JsonNode json, Measure measure) {
    String asked = json.path("aggregation").asString("");
    return asked.isEmpty()
        ? measure.aggregation()
        : Aggregation.valueOf(asked.toUpperCase(Locale.ROOT));
  }

  /** How the result was tested; two results of one measure differ in it or are duplicates. */
  static Protocol protocol(String family, JsonNode json) {
    Map<String, Object> terms = new TreeMap<>();
    for (Map.Entry<String, JsonNode> member : json.properties()) {
      if (!NOT_PROTOCOL.contains(member.getKey())) {
        terms.put(member.getKey(), term(member.getKey(), member.getValue()));
      }
    }
    switch (family) {
      case "isokineticStrength" ->
          terms.put(Protocol.MODE, "isokinetic-" + json.path("action").asString(""));
      case "isometricStrength", "isometricForce" -> terms.put(Protocol.MODE, "isometric");
      default -> {}
    }
    return new Protocol(terms);
  }

  private static Object term(String name, JsonNode json) {
    if (json.isObject()) {
      double value = json.path("value").asDouble(0);
      return PLAIN.contains(name)
          ? (Object) value
          : new Quantity(value, json.path("unit").asString(""));
    }
    if (json.isBoolean()) {
      return json.asBoolean();
    }
    return json.isNumber() ? (Object) json.asDouble() : json.asString("");
  }

  private static @Nullable Side side(JsonNode json) {
    return json.has("side") ? Side.of(json.path("side").asString()) : null;
  }

  private static @Nullable Double quantity(JsonNode json) {
    return json.isObject() ? json.path("value").asDouble() : null;
  }
}
