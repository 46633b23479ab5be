package evenside.api.fhir;

import evenside.api.fhir.ImportFaults.Code;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Numbers, grades, facts and trials out of Observations. A unit is never converted. */
final class ValueImport {
  private final Members members;
  private final ImportFaults faults;
  private final Origins origins;

  ValueImport(Codes codes, ImportFaults faults, Origins origins) {
    this.members = new Members(codes);
    this.faults = faults;
    this.origins = origins;
  }

  /** The value of an Observation, in the member that its family has for it. */
  void add(
      String at,
      JsonNode observation,
      ObjectNode result,
      String place,
      String family,
      String unit) {
    switch (family) {
      case "effusion" -> addGrade(at, observation, result, place);
      case "clinicianFact" -> addFact(at, observation, result, place);
      case "repetitionMaximum", "heelHeight", "pain" ->
          number(at, observation, unit)
              .ifPresent(
                  value -> {
                    result.set("value", value);
                    origins.note(place + "/value", at + "/" + valueMember(observation));
                  });
      default -> addTrials(at, observation, result, place, unit);
    }
  }

  private void addGrade(String at, JsonNode observation, ObjectNode result, String place) {
    Optional<String> grade =
        members.codedAs(observation.path("valueCodeableConcept"), "effusion-grade");
    grade.ifPresentOrElse(
        found -> result.put("grade", found),
        () ->
            faults.add(
                at + "/" + valueMember(observation),
                Code.VALUE_UNUSABLE,
                "a grade of the stroke test is needed, by one of our codes"));
    origins.note(place + "/grade", at + "/valueCodeableConcept");
  }

  private void addFact(String at, JsonNode observation, ObjectNode result, String place) {
    if (observation.path("valueBoolean").isBoolean()) {
      result.set("value", observation.path("valueBoolean"));
      origins.note(place + "/value", at + "/valueBoolean");
    } else {
      faults.add(
          at + "/" + valueMember(observation), Code.VALUE_UNUSABLE, "valueBoolean is needed");
    }
  }

  /** Without trials the value is the only one; with trials it must lie among them. */
  private void addTrials(
      String at, JsonNode observation, ObjectNode result, String place, String unit) {
    boolean hasTrials = result.has("trials");
    boolean hasValue = !valueMember(observation).equals("value");
    if (hasTrials && !hasValue) {
      checkTrialUnits(at, observation, unit);
      return;
    }
    Optional<JsonNode> value = number(at, observation, unit);
    if (!hasTrials) {
      origins.note(place + "/trials", at + "/" + valueMember(observation));
      value.ifPresent(only -> result.putArray("trials").addObject().set("value", only));
      return;
    }
    checkTrialUnits(at, observation, unit);
    value
        .filter(joined -> contradicts(joined.decimalValue(), result.path("trials")))
        .ifPresent(
            joined ->
                faults.add(
                    at + "/valueQuantity/value",
                    Code.VALUE_CONTRADICTS_TRIALS,
                    "the value lies outside the trials that count"));
  }

  private static boolean contradicts(BigDecimal joined, JsonNode trials) {
    List<BigDecimal> counting =
        trials
            .valueStream()
            .filter(trial -> !trial.has("invalidReason") && trial.path("value").isNumber())
            .map(trial -> trial.path("value").decimalValue())
            .sorted()
            .toList();
    return !counting.isEmpty()
        && (joined.compareTo(counting.get(0)) < 0
            || joined.compareTo(counting.get(counting.size() - 1)) > 0);
  }

  private void checkTrialUnits(String at, JsonNode observation, String unit) {
    for (int i = 0; i < observation.path("component").size(); i++) {
      JsonNode component = observation.path("component").get(i);
      Optional<String> name = members.codedAs(component.path("code"), "member");
      if (name.filter(one -> one.equals("trial") || one.equals("invalidTrial")).isPresent()
          && component.has("valueQuantity")) {
        unitIs(at + "/component/" + i, component.path("valueQuantity"), unit);
      }
    }
  }

  /** One trial, or a number that belongs to the trial before it. */
  void addTrial(String at, JsonNode component, ObjectNode result, String place, String name) {
    ArrayNode trials = result.withArray("trials");
    if (name.equals("trial") || name.equals("invalidTrial")) {
      ObjectNode trial = trials.addObject();
      String own = place + "/trials/" + (trials.size() - 1);
      origins.note(own, at);
      origins.note(own + "/value", at + "/valueQuantity/value");
      if (component.has("valueQuantity") || component.has("valueInteger")) {
        anyNumber(at, component).ifPresent(value -> trial.set("value", value));
      }
      if (name.equals("invalidTrial")) {
        addInvalidReason(at, component, trial);
      }
      return;
    }
    if (trials.isEmpty()) {
      faults.add(at, Code.VALUE_UNUSABLE, "this belongs to a trial, and none came before it");
      return;
    }
    ObjectNode last = (ObjectNode) trials.get(trials.size() - 1);
    addMember(at, component, last, place + "/trials/" + (trials.size() - 1), name);
  }

  private void addInvalidReason(String at, JsonNode component, ObjectNode trial) {
    JsonNode reason = component.path("interpretation").path(0);
    members
        .codedAs(reason, "invalid-reason")
        .ifPresentOrElse(
            why -> trial.put("invalidReason", why),
            () ->
                faults.add(
                    at + "/interpretation",
                    Code.REASON_MISSING,
                    "why the trial does not count must be named by one of our codes"));
  }

  /** A member that says how a result was obtained. */
  void addMember(String at, JsonNode component, ObjectNode into, String place, String name) {
    if (component.has("valueQuantity") && !isUcum(component.path("valueQuantity"))) {
      faults.add(at + "/valueQuantity/system", Code.UNIT_WRONG, "units are UCUM codes", Fhir.UCUM);
      return;
    }
    Optional<JsonNode> value = members.read(component, name);
    if (value.isEmpty()) {
      faults.add(
          at,
          Code.VALUE_UNUSABLE,
          "a quantity, number, yes/no, text or one of our codes is needed");
      return;
    }
    into.set(name, value.get());
    origins.note(place + "/" + name, at);
    origins.note(place + "/" + name + "/unit", at + "/valueQuantity/code");
    origins.note(place + "/" + name + "/value", at + "/valueQuantity/value");
  }

  /** {@code {value, unit}} as sent; the schema of the battery holds the unit. */
  Optional<ObjectNode> amount(String at, JsonNode observation) {
    JsonNode quantity = observation.path("valueQuantity");
    if (!isUcum(quantity)) {
      faults.add(at + "/valueQuantity/system", Code.UNIT_WRONG, "units are UCUM codes", Fhir.UCUM);
      return Optional.empty();
    }
    return anyNumber(at, observation)
        .map(
            value -> {
              ObjectNode amount = Fhir.object();
              amount.set("value", value);
              return amount.put("unit", quantity.path("code").asString(""));
            });
  }

  /** A number in exactly this unit; of a score and a count also a plain integer. */
  Optional<JsonNode> number(String at, JsonNode holder, String unit) {
    if (holder.has("valueInteger") && unit.startsWith("{")) {
      return anyNumber(at, holder);
    }
    if (holder.has("valueQuantity") && !unitIs(at, holder.path("valueQuantity"), unit)) {
      return Optional.empty();
    }
    return anyNumber(at, holder);
  }

  private Optional<JsonNode> anyNumber(String at, JsonNode holder) {
    JsonNode integer = holder.path("valueInteger");
    JsonNode quantity = holder.path("valueQuantity");
    JsonNode value = integer.isNumber() ? integer : quantity.path("value");
    if (!value.isNumber() || quantity.has("comparator")) {
      faults.add(
          at + "/" + valueMember(holder),
          Code.VALUE_UNUSABLE,
          "valueQuantity with a plain number is needed, without a comparator");
      return Optional.empty();
    }
    return Optional.of(value);
  }

  private boolean unitIs(String at, JsonNode quantity, String unit) {
    boolean same = isUcum(quantity) && quantity.path("code").asString("").equals(unit);
    if (!same) {
      faults.add(
          at + "/valueQuantity/code",
          Code.UNIT_WRONG,
          "the unit is not converted; send the number in the unit of the measure",
          unit);
    }
    return same;
  }

  private static boolean isUcum(JsonNode quantity) {
    return quantity.path("system").asString("").equals(Fhir.UCUM);
  }

  private static String valueMember(JsonNode holder) {
    for (String name :
        List.of("valueQuantity", "valueInteger", "valueBoolean", "valueCodeableConcept")) {
      if (holder.has(name)) {
        return name;
      }
    }
    return "value";
  }
}
