package evenside.api.fhir;

import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * What was tested, as Observations: one per result and leg, since a body site stands once in an
 * Observation and never in a component. Trials are components in the order they were done; one that
 * does not count has a code of its own and its reason as interpretation.
 *
 * <p>Answers to the items of questionnaires are left out; their scores are in.
 */
final class ResultObservations {
  private final Codes codes;
  private final Members members;

  ResultObservations(Codes codes) {
    this.codes = codes;
    this.members = new Members(codes);
  }

  List<ObjectNode> of(Visit visit) {
    List<ObjectNode> all = new ArrayList<>();
    for (var family : visit.battery().path("results").properties()) {
      for (int i = 0; i < family.getValue().size(); i++) {
        String pointer = "/results/" + family.getKey() + "/" + i;
        all.add(one(visit, family.getKey(), pointer, family.getValue().get(i)));
      }
    }
    return all;
  }

  private ObjectNode one(Visit visit, String family, String pointer, JsonNode result) {
    return switch (family) {
      case "questionnaire" -> questionnaire(visit, pointer, result);
      case "notPerformed" -> notPerformed(visit, pointer, result);
      default -> measured(visit, family, pointer, result);
    };
  }

  private ObjectNode start(Visit visit, String pointer, String category, ObjectNode code) {
    return visit.observation(Visit.idSuffix(pointer), codes.external(category), code);
  }

  private ObjectNode measured(Visit visit, String family, String pointer, JsonNode result) {
    String measure = result.path("measure").asString();
    String category = family.equals("pain") ? "category-survey" : "category-exam";
    ObjectNode json = start(visit, pointer, category, codes.measure(measure));
    members.put(json, visit.value(pointer, measure), "effusion-grade");
    addSide(json, result);
    if (result.has("device")) {
      json.set("device", Fhir.logical("device", result.path("device").asString()));
    }
    members.describe(json, result);
    if (result.has("side")) {
      boolean operated = visit.side(true).equals(result.path("side").asString());
      String role = operated ? "operated" : "other";
      ObjectNode leg = Fhir.object();
      leg.set("code", codes.term("member", "role"));
      leg.set("valueCodeableConcept", codes.term("limb-role", role));
      json.withArray("component").add(leg);
    }
    String unit = result.path("unit").asString("");
    result.path("trials").forEach(trial -> addTrial(json.withArray("component"), trial, unit));
    return json;
  }

  private void addSide(ObjectNode json, JsonNode result) {
    if (result.has("side")) {
      json.set("bodySite", codes.knee(result.path("side").asString()));
    }
  }

  private void addTrial(ArrayNode components, JsonNode trial, String unit) {
    boolean counts = !trial.has("invalidReason");
    ObjectNode json = components.addObject();
    json.set("code", codes.term("member", counts ? "trial" : "invalidTrial"));
    if (trial.has("value")) {
      json.set("valueQuantity", Fhir.quantity(trial.path("value"), unit));
    } else {
      json.set("dataAbsentReason", members.absent("absent-unknown"));
    }
    if (!counts) {
      String reason = trial.path("invalidReason").asString();
      json.putArray("interpretation").add(codes.term("invalid-reason", reason));
    }
    for (String further : List.of("errors", "flightTime", "contactTime")) {
      if (trial.has(further)) {
        components.add(members.component("member", further, further, trial.path(further)));
      }
    }
  }

  private ObjectNode notPerformed(Visit visit, String pointer, JsonNode result) {
    String measure = result.path("measure").asString();
    ObjectNode json = start(visit, pointer, "category-exam", codes.measure(measure));
    addSide(json, result);
    ObjectNode absent = codes.external("absent-not-performed");
    absent
        .withArray("coding")
        .add(codes.termCoding("not-performed-reason", result.path("reason").asString()));
    json.set("dataAbsentReason", absent);
    return json;
  }

  /** A form with one score has it as its value, one with several as components. */
  private ObjectNode questionnaire(Visit visit, String pointer, JsonNode result) {
    String instrument = result.path("instrument").asString();
    List<JsonNode> scores = scores(visit, instrument);
    boolean single =
        scores.size() == 1 && scores.get(0).path("measure").asString().equals(instrument);
    ObjectNode code = single ? codes.measure(instrument) : codes.instrument(instrument);
    ObjectNode json = start(visit, pointer, "category-survey", code);
    members.describe(json, result);
    for (JsonNode score : scores) {
      ObjectNode into = single ? json : json.withArray("component").addObject();
      if (!single) {
        into.set("code", codes.measure(score.path("measure").asString()));
      }
      addScore(json, into, score);
    }
    return json;
  }

  private static List<JsonNode> scores(Visit visit, String instrument) {
    return visit
        .document()
        .path("scores")
        .valueStream()
        .filter(one -> one.at("/questionnaire/instrument").asString("").equals(instrument))
        .toList();
  }

  private void addScore(ObjectNode observation, ObjectNode into, JsonNode score) {
    if (score.has("score")) {
      into.set("valueQuantity", Fhir.quantity(score.path("score")));
      JsonNode source = score.path("valueSource");
      observation
          .withArray("component")
          .add(members.component("member", "valueSource", "valueSource", source));
    } else {
      into.set("dataAbsentReason", members.absent("absent-unknown"));
      String why = score.path("measure").asString() + ": " + score.at("/reason/text").asString("");
      observation.withArray("note").addObject().put("text", why);
    }
  }
}
