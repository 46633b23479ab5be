package evenside.api.fhir;

import evenside.api.fhir.ImportFaults.Code;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Puts one Observation after the other into the results of a battery. */
final class ResultImport {
  private final Codes codes;
  private final Members members;
  private final ImportFaults faults;
  private final Origins origins;
  private final ValueImport values;
  private final String operatedSide;
  private final ObjectNode results = Fhir.object();

  ResultImport(Codes codes, ImportFaults faults, Origins origins, String operatedSide) {
    this.codes = codes;
    this.members = new Members(codes);
    this.faults = faults;
    this.origins = origins;
    this.values = new ValueImport(codes, faults, origins);
    this.operatedSide = operatedSide;
  }

  ObjectNode results() {
    return results;
  }

  void add(String at, JsonNode observation, ObjectNode battery) {
    Optional<String> meaning = meaning(at + "/code", observation.path("code"));
    if (meaning.isEmpty()) {
      return;
    }
    String kind = meaning.get().substring(0, meaning.get().indexOf('.'));
    String ours = meaning.get().substring(kind.length() + 1);
    switch (kind) {
      case "measure" -> addMeasure(at, observation, ours);
      case "instrument" -> addForm(at, observation, ours);
      case "vital-sign" -> addLength(at, observation, battery, "/" + ours);
      default -> addBody(at, observation, battery, ours);
    }
  }

  /** What a concept stands for; its codings must agree, and one of them must be known. */
  private Optional<String> meaning(String at, JsonNode concept) {
    Set<String> found = new HashSet<>();
    boolean ownWork = false;
    for (JsonNode coding : concept.path("coding")) {
      String system = coding.path("system").asString("");
      String code = coding.path("code").asString("");
      ownWork |= codes.isWorkedOutHere(system, code);
      codes.meaning(system, code).ifPresent(found::add);
    }
    if (ownWork) {
      faults.add(at, Code.WORKED_OUT_HERE, "the service works this out itself; leave it out");
      return Optional.empty();
    }
    if (found.size() == 1) {
      return found.stream().findFirst();
    }
    if (found.isEmpty()) {
      faults.add(at, Code.CODE_UNKNOWN, "no coding of this concept is in the published mapping");
    } else {
      faults.add(at, Code.CODES_DISAGREE, "the codings of this concept say different things");
    }
    return Optional.empty();
  }

  private void addBody(String at, JsonNode observation, ObjectNode battery, String ours) {
    switch (ours) {
      case "shankLength" -> addLength(at, observation, battery, "/shankLength");
      case "limbLength" ->
          side(at, observation)
              .ifPresent(side -> addLength(at, observation, battery, "/limbLength/" + side));
      default ->
          faults.add(at + "/code", Code.CODE_UNKNOWN, "this code says how, not what was measured");
    }
  }

  private void addLength(String at, JsonNode observation, ObjectNode battery, String place) {
    values
        .amount(at, observation)
        .ifPresent(
            amount -> {
              int last = place.lastIndexOf('/');
              ObjectNode into = last == 0 ? battery : battery.withObject(place.substring(0, last));
              into.set(place.substring(last + 1), amount);
              origins.note(place, at + "/valueQuantity");
              origins.note(place + "/unit", at + "/valueQuantity/code");
            });
  }

  private void addMeasure(String at, JsonNode observation, String measure) {
    JsonNode entry = codes.entry(measure);
    String family = family(observation, entry.path("family").asString());
    if (family.equals("questionnaire")) {
      addScore(at, observation, measure);
      return;
    }
    ObjectNode result = Fhir.object().put("measure", measure);
    boolean done = !isNotPerformed(observation);
    String place = open(done ? family : "notPerformed", at, result);
    origins.note(place + "/measure", at + "/code");
    addSide(at, observation, entry, result, place);
    if (!done) {
      addReason(at, observation, result, place);
      return;
    }
    if (entry.has("unit")) {
      result.put("unit", entry.path("unit").asString());
    }
    if (observation.has("dataAbsentReason")) {
      faults.add(
          at + "/dataAbsentReason", Code.VALUE_UNUSABLE, "a result is either given or not done");
    }
    addMembers(at, observation, result, place);
    values.add(at, observation, result, place, family, entry.path("unit").asString(""));
  }

  /** The same torque is sent in two families; a knee angle tells that nothing moved. */
  private String family(JsonNode observation, String family) {
    boolean angle =
        observation
            .path("component")
            .valueStream()
            .anyMatch(
                one -> members.codedAs(one.path("code"), "member").equals(Optional.of("angle")));
    return family.equals("isokineticStrength") && angle ? "isometricStrength" : family;
  }

  private static boolean isNotPerformed(JsonNode observation) {
    return observation.has("dataAbsentReason") && !observation.has("component");
  }

  private String open(String family, String at, ObjectNode result) {
    ArrayNode list = results.withArray(family);
    list.add(result);
    String place = "/results/" + family + "/" + (list.size() - 1);
    origins.note(place, at);
    return place;
  }

  private void addSide(
      String at, JsonNode observation, JsonNode entry, ObjectNode result, String place) {
    if (entry.path("sides").asString().equals("each")) {
      side(at, observation).ifPresent(side -> result.put("side", side));
      origins.note(place + "/side", at + "/bodySite");
    } else if (observation.has("bodySite")) {
      faults.add(at + "/bodySite", Code.SIDE_NOT_TAKEN, "this measure has no side");
    }
  }

  private Optional<String> side(String at, JsonNode observation) {
    Optional<String> side = members.codedAs(observation.path("bodySite"), "side");
    if (side.isEmpty()) {
      faults.add(
          at + "/bodySite", Code.SIDE_UNKNOWN, "the left or the right knee must be named by code");
    }
    return side;
  }

  private void addReason(String at, JsonNode observation, ObjectNode result, String place) {
    Optional<String> reason =
        members.codedAs(observation.path("dataAbsentReason"), "not-performed-reason");
    if (reason.isEmpty()) {
      faults.add(
          at + "/dataAbsentReason",
          Code.REASON_MISSING,
          "why the test was not done must be named by one of our codes");
    }
    reason.ifPresent(why -> result.put("reason", why));
    origins.note(place + "/reason", at + "/dataAbsentReason");
  }

  private void addMembers(String at, JsonNode observation, ObjectNode result, String place) {
    addMethod(at, observation, result, place);
    if (observation.has("device")) {
      JsonNode device = observation.path("device");
      String reference = device.path("reference").asString("");
      result.put(
          "device",
          device
              .at("/identifier/value")
              .asString(reference.substring(reference.lastIndexOf('/') + 1)));
      origins.note(place + "/device", at + "/device");
    }
    for (int i = 0; i < observation.path("component").size(); i++) {
      JsonNode component = observation.path("component").get(i);
      addComponent(at + "/component/" + i, component, result, place);
    }
  }

  private void addMethod(String at, JsonNode observation, ObjectNode result, String place) {
    if (!observation.has("method")) {
      return;
    }
    JsonNode method = observation.path("method");
    Optional<String> known = members.codedAs(method, "method");
    Optional<String> mode = members.codedAs(method, "mode").filter(is -> is.startsWith("isok"));
    known.ifPresent(name -> result.put("method", name));
    mode.ifPresent(name -> result.put("action", name.substring(name.indexOf('-') + 1)));
    origins.note(place + (mode.isPresent() ? "/action" : "/method"), at + "/method");
    if (known.isEmpty() && mode.isEmpty()) {
      faults.add(
          at + "/method",
          Code.CODE_UNKNOWN,
          "no coding of this concept is in the published mapping");
    }
  }

  private void addComponent(String at, JsonNode component, ObjectNode result, String place) {
    Optional<String> name = members.codedAs(component.path("code"), "member");
    if (name.isEmpty()) {
      faults.add(
          at + "/code", Code.CODE_UNKNOWN, "no coding of this concept is in the published mapping");
      return;
    }
    switch (name.get()) {
      case "trial", "invalidTrial", "errors", "flightTime", "contactTime" ->
          values.addTrial(at, component, result, place, name.get());
      case "role" -> checkRole(at, component, result);
      default -> values.addMember(at, component, result, place, name.get());
    }
  }

  private void checkRole(String at, JsonNode component, ObjectNode result) {
    Optional<String> role = members.codedAs(component.path("valueCodeableConcept"), "limb-role");
    boolean operated = result.path("side").asString("").equals(operatedSide);
    if (!role.equals(Optional.of(operated ? "operated" : "other"))) {
      faults.add(at, Code.ROLE_CONTRADICTS_CASE, "by the case, this side is not in that role");
    }
  }

  private void addForm(String at, JsonNode observation, String instrument) {
    String place = form(at, instrument);
    ObjectNode form = (ObjectNode) results.at(place.substring("/results".length()));
    for (int i = 0; i < observation.path("component").size(); i++) {
      JsonNode component = observation.path("component").get(i);
      String part = at + "/component/" + i;
      if (members.codedAs(component.path("code"), "member").isPresent()) {
        addFormMember(part, component, form, place);
      } else {
        meaning(part + "/code", component.path("code"))
            .map(found -> found.substring(found.indexOf('.') + 1))
            .ifPresent(measure -> putScore(part, component, form, place, measure));
      }
    }
  }

  private void addFormMember(String at, JsonNode component, ObjectNode form, String place) {
    String name = members.codedAs(component.path("code"), "member").orElseThrow();
    // Where a score comes from is found out anew.
    if (!name.equals("valueSource")) {
      values.addMember(at, component, form, place, name);
    }
  }

  private void addScore(String at, JsonNode observation, String measure) {
    String place = form(at, codes.instrumentOf(measure));
    ObjectNode form = (ObjectNode) results.at(place.substring("/results".length()));
    for (int i = 0; i < observation.path("component").size(); i++) {
      JsonNode component = observation.path("component").get(i);
      if (members.codedAs(component.path("code"), "member").isEmpty()) {
        faults.add(
            at + "/component/" + i + "/code",
            Code.CODE_UNKNOWN,
            "no coding of this concept is in the published mapping");
      } else {
        addFormMember(at + "/component/" + i, component, form, place);
      }
    }
    putScore(at, observation, form, place, measure);
  }

  /** The form of an instrument, opened when its first score comes. */
  private String form(String at, String instrument) {
    ArrayNode forms = results.withArray("questionnaire");
    for (int i = 0; i < forms.size(); i++) {
      if (forms.get(i).path("instrument").asString().equals(instrument)) {
        return "/results/questionnaire/" + i;
      }
    }
    return open("questionnaire", at, Fhir.object().put("instrument", instrument));
  }

  private void putScore(String at, JsonNode holder, ObjectNode form, String place, String measure) {
    values
        .number(at, holder, "{score}")
        .ifPresent(
            score -> {
              ArrayNode scores = form.withArray("scores");
              ObjectNode one = scores.addObject().put("measure", measure);
              one.set("score", score);
              origins.note(place + "/scores/" + (scores.size() - 1), at);
            });
  }
}
