package evenside.api.fhir;

import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * An entry of the training record as a Procedure with Observations that are part of it: what was
 * trained bout by bout, how the knee answered, and the questions about warning signs.
 */
public final class SessionResources {
  private static final String VALUES = "session";

  private final Codes codes;
  private final Members members;

  /** Writes in these codes. */
  public SessionResources(Codes codes) {
    this.codes = codes;
    this.members = new Members(codes);
  }

  /** Makes the resources of one entry; holds what each of its Observations begins with. */
  private final class Writer {
    private final String id;
    private final String performedAt;
    private final String subject;
    private final List<ObjectNode> made = new ArrayList<>();

    Writer(JsonNode document, String subject) {
      this.id = document.path("sessionId").asString();
      this.performedAt = document.at("/session/performedAt").asString();
      this.subject = subject;
    }

    ObjectNode observation(ObjectNode code, String category) {
      ObjectNode json = Fhir.resource("Observation", id + "-session-" + made.size());
      json.put("status", "final");
      json.putArray("category").add(codes.external(category));
      json.set("code", code);
      json.set("subject", Visit.person(subject));
      json.put("effectiveDateTime", performedAt);
      json.putArray("partOf").add(Fhir.reference("Procedure", id));
      made.add(json);
      return json;
    }

    void answer(String name, JsonNode value, String values) {
      if (!value.isMissingNode()) {
        members.put(observation(codes.term(VALUES, name), "category-survey"), value, values);
      }
    }
  }

  /**
   * Procedure, then its Observations.
   *
   * @param document the session's record
   * @param subject reference of the person
   */
  public List<ObjectNode> of(JsonNode document, String subject) {
    JsonNode entry = document.at("/session/entry");
    Writer writer = new Writer(document, subject);
    JsonNode training = entry.path("training");
    addWork(writer, training.path("work"));
    for (String name : List.of("effort", "therapistPresent")) {
      writer.answer(name, training.path(name), name);
    }
    training
        .path("programmeCompleted")
        .forEach(one -> writer.answer("programmeCompleted", one, "programmeCompleted"));
    for (String kind : List.of("training", "kneeCheck")) {
      addResponse(writer, entry.path(kind).path("response"));
      addFlags(writer, entry.path(kind).path("redFlags"));
    }
    entry.path("restDays").forEach(day -> writer.answer("restDay", day, VALUES));
    List<ObjectNode> all = new ArrayList<>(List.of(procedure(document, entry, subject)));
    all.addAll(writer.made);
    return all;
  }

  private ObjectNode procedure(JsonNode document, JsonNode entry, String subject) {
    String id = document.path("sessionId").asString();
    JsonNode session = document.path("session");
    String start = session.path("performedAt").asString();
    ObjectNode json = Fhir.resource("Procedure", id);
    ArrayNode identifiers = json.putArray("identifier");
    identifiers.add(Fhir.identifier("session", id));
    if (session.has("recordId")) {
      identifiers.add(Fhir.identifier("record", session.path("recordId").asString()));
    }
    json.put("status", "completed");
    json.set("category", codes.term("document", "session"));
    json.set("code", codes.term("document", kind(entry)));
    json.set("subject", Visit.person(subject));
    JsonNode minutes = entry.at("/training/duration/value");
    if (minutes.isMissingNode()) {
      json.put("performedDateTime", start);
    } else {
      json.putObject("performedPeriod").put("start", start).put("end", end(start, minutes));
    }
    addPerformer(json, entry.path("clearance"));
    json.putArray("bodySite").add(codes.knee(session.path("operatedSide").asString()));
    if (entry.at("/clearance/note").isString()) {
      json.putArray("note").addObject().put("text", entry.at("/clearance/note").asString());
    }
    return json;
  }

  private static String kind(JsonNode entry) {
    if (entry.has("kneeCheck")) {
      return "knee-check";
    }
    if (entry.has("restDays")) {
      return "rest-days";
    }
    return entry.has("clearance") ? "clearance" : "training";
  }

  /** Only a clearance is a clinician's act; who trained is the subject. */
  private static void addPerformer(ObjectNode json, JsonNode clearance) {
    if (clearance.has("clinician")) {
      String clinician = clearance.path("clinician").asString();
      json.putArray("performer")
          .addObject()
          .set("actor", Fhir.logical("Practitioner", "clinician", clinician));
    }
    if (clearance.has("clears")) {
      ArrayNode about = json.putArray("reasonReference");
      clearance
          .path("clears")
          .forEach(entry -> about.add(Fhir.logical("Procedure", "record", entry.asString())));
    }
  }

  private static String end(String start, JsonNode minutes) {
    long seconds = minutes.decimalValue().multiply(java.math.BigDecimal.valueOf(60)).longValue();
    return java.time.format.DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(
        OffsetDateTime.parse(start).plus(seconds, ChronoUnit.SECONDS));
  }

  private void addWork(Writer writer, JsonNode work) {
    for (var kind : work.properties()) {
      for (JsonNode bout : kind.getValue()) {
        ObjectNode json =
            writer.observation(codes.term("document", "work-" + kind.getKey()), "category-exam");
        addBout(json.putArray("component"), bout);
      }
    }
  }

  private void addBout(ArrayNode components, JsonNode bout) {
    for (var member : bout.properties()) {
      String name = member.getKey();
      JsonNode value = member.getValue();
      switch (name) {
        case "exercise", "drill" -> {
          ObjectNode component = components.addObject();
          component.set("code", codes.term("work", name));
          component.set("valueCodeableConcept", codes.exercise(value.asString()));
        }
        case "side" -> components.add(members.component("work", "legs", "legs", value));
        case "progression" -> addProgression(components, value);
        case "planned", "completed" -> addDose(components, name, value);
        default -> components.add(members.component("work", name, name, value));
      }
    }
  }

  private void addProgression(ArrayNode components, JsonNode progression) {
    for (var member : progression.properties()) {
      String name = member.getKey();
      String term = "progression" + Character.toUpperCase(name.charAt(0)) + name.substring(1);
      components.add(members.component("work", term, term, member.getValue()));
    }
  }

  private void addDose(ArrayNode components, String which, JsonNode dose) {
    for (var member : dose.properties()) {
      String term = which + "." + member.getKey();
      JsonNode value = member.getValue();
      if (value.isArray()) {
        value.forEach(one -> components.add(members.component("work", term, term, one)));
      } else {
        components.add(members.component("work", term, term, value));
      }
    }
  }

  private void addResponse(Writer writer, JsonNode response) {
    for (String group : List.of("pain", "soreness")) {
      for (var member : response.path(group).properties()) {
        String name = member.getKey();
        String term = group + Character.toUpperCase(name.charAt(0)) + name.substring(1);
        if (member.getValue().isArray()) {
          member.getValue().forEach(one -> writer.answer(term, one, name));
        } else {
          writer.answer(term, member.getValue(), name);
        }
      }
    }
    addEffusion(writer, response.path("effusion"));
    writer.answer("swollenNextMorning", response.path("swollenNextMorning"), VALUES);
    writer.answer("extensionLoss", response.path("extensionLoss"), VALUES);
    writer.answer("nextMorningAt", response.path("nextMorningAt"), VALUES);
  }

  private void addEffusion(Writer writer, JsonNode effusion) {
    for (String when : List.of("usual", "before", "after", "nextMorning")) {
      if (effusion.has(when)) {
        String term = "effusion" + Character.toUpperCase(when.charAt(0)) + when.substring(1);
        ObjectNode json = writer.observation(codes.term(VALUES, term), "category-exam");
        members.put(json, effusion.path(when), "effusion-grade");
        json.set("method", codes.term("method", effusion.path("method").asString()));
      }
    }
  }

  private void addFlags(Writer writer, JsonNode flags) {
    for (var flag : flags.properties()) {
      writer.answer(flag.getKey(), flag.getValue(), "answer");
    }
  }
}
