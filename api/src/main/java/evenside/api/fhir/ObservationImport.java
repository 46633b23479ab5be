package evenside.api.fhir;

import evenside.api.fhir.ImportFaults.Code;
import evenside.api.problem.Problem;
import evenside.schemas.Fault;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A collection of Observations of one person and one day as a battery of ours.
 *
 * <p>Everything is either read or refused with its place. Passed over, as it says nothing about the
 * result: id, meta, language, text, identifier, category, issued, performer.
 */
public final class ObservationImport {
  private static final Set<String> TAKEN =
      Set.of(
          "resourceType",
          "id",
          "meta",
          "language",
          "text",
          "identifier",
          "status",
          "category",
          "code",
          "subject",
          "effectiveDateTime",
          "issued",
          "performer",
          "valueQuantity",
          "valueInteger",
          "valueBoolean",
          "valueCodeableConcept",
          "dataAbsentReason",
          "bodySite",
          "method",
          "device",
          "component");

  private static final Set<String> TAKEN_OF_COMPONENTS =
      Set.of(
          "id",
          "code",
          "valueQuantity",
          "valueInteger",
          "valueBoolean",
          "valueString",
          "valueCodeableConcept",
          "dataAbsentReason",
          "interpretation");

  private final Codes codes;

  /** Reads these codes. */
  public ObservationImport(Codes codes) {
    this.codes = codes;
  }

  /**
   * What the case says, to which the Observations must fit.
   *
   * @param subject reference of the person
   * @param operatedSide left or right
   */
  public record Expected(String subject, String operatedSide) {}

  /**
   * A battery, not yet checked by its schema and rules.
   *
   * @param battery the battery
   * @param origins where its parts came from
   */
  public record Imported(ObjectNode battery, Origins origins) {
    /** The answer to a payload whose battery has these faults. */
    public Problem refusal(List<Fault> faults) {
      return ImportFaults.refusal(origins.translate(faults));
    }
  }

  /**
   * Reads a Bundle of type collection, or one Observation.
   *
   * @throws evenside.api.problem.ProblemException with every fault, if it cannot be read
   */
  public Imported read(JsonNode payload, Expected expected, String schemaVersion) {
    ImportFaults faults = new ImportFaults();
    ObjectNode battery = Fhir.object().put("schemaVersion", schemaVersion);
    Origins origins = new Origins();
    ResultImport results = new ResultImport(codes, faults, origins, expected.operatedSide());
    Map<String, OffsetDateTime> times = new LinkedHashMap<>();
    for (Place place : observations(payload, faults)) {
      if (isTaken(place, expected, faults)) {
        addTime(place, times, faults);
        results.add(place.pointer(), place.observation(), battery);
      }
    }
    addRecordId(payload, battery, origins);
    faults.refuseIfAny();
    battery.put("performedAt", earliest(times));
    battery.put("operatedSide", expected.operatedSide());
    battery.set("results", results.results());
    return new Imported(battery, origins);
  }

  private record Place(String pointer, JsonNode observation) {}

  private static List<Place> observations(JsonNode payload, ImportFaults faults) {
    String type = payload.path(Fhir.RESOURCE_TYPE).asString("");
    if (type.equals("Observation")) {
      return List.of(new Place("", payload));
    }
    List<Place> found = new ArrayList<>();
    if (type.equals("Bundle") && payload.path("type").asString("").equals("collection")) {
      for (int i = 0; i < payload.path("entry").size(); i++) {
        JsonNode resource = payload.path("entry").get(i).path("resource");
        found.add(new Place("/entry/" + i + "/resource", resource));
      }
    }
    if (found.isEmpty()) {
      faults.add(
          "",
          Code.RESOURCE_NOT_TAKEN,
          "send a Bundle of type collection with Observations, or one Observation");
    }
    return found;
  }

  private static boolean isTaken(Place place, Expected expected, ImportFaults faults) {
    JsonNode json = place.observation();
    if (!json.path(Fhir.RESOURCE_TYPE).asString("").equals("Observation")) {
      faults.add(
          place.pointer() + "/" + Fhir.RESOURCE_TYPE,
          Code.RESOURCE_NOT_TAKEN,
          "only Observations are taken");
      return false;
    }
    checkMembers(place.pointer(), json, TAKEN, faults);
    for (int i = 0; i < json.path("component").size(); i++) {
      String part = place.pointer() + "/component/" + i;
      checkMembers(part, json.path("component").get(i), TAKEN_OF_COMPONENTS, faults);
    }
    if (!Set.of("final", "amended", "corrected").contains(json.path("status").asString(""))) {
      faults.add(
          place.pointer() + "/status",
          Code.STATUS_NOT_TAKEN,
          "only finished results are taken",
          "final, amended, corrected");
    }
    checkSubject(place, expected, faults);
    return true;
  }

  private static void checkMembers(
      String at, JsonNode json, Set<String> taken, ImportFaults faults) {
    for (String member : json.propertyNames()) {
      if (!taken.contains(member)) {
        faults.add(
            at + "/" + pointerPart(member),
            Code.MEMBER_NOT_TAKEN,
            "this member cannot be kept; leave it out if the result means the same without it");
      }
    }
  }

  /** A result of another person in this case would be found by nobody. */
  private static void checkSubject(Place place, Expected expected, ImportFaults faults) {
    JsonNode subject = place.observation().path("subject");
    String reference = subject.path("reference").asString("");
    String known = expected.subject();
    boolean same =
        subject.at("/identifier/value").asString("").equals(known)
            || reference.equals("Patient/" + known)
            || reference.endsWith("/Patient/" + known);
    if (!same) {
      faults.add(
          place.pointer() + "/subject", Code.OTHER_SUBJECT, "the case is about another subject");
    }
  }

  private static void addTime(Place place, Map<String, OffsetDateTime> times, ImportFaults faults) {
    String pointer = place.pointer() + "/effectiveDateTime";
    String sent = place.observation().path("effectiveDateTime").asString("");
    OffsetDateTime time;
    try {
      time = OffsetDateTime.parse(sent);
    } catch (DateTimeException e) {
      faults.add(pointer, Code.TIME_UNUSABLE, "a date and time with its offset from UTC is needed");
      return;
    }
    times.put(sent, time);
    LocalDate day = times.values().iterator().next().toLocalDate();
    if (!time.toLocalDate().equals(day)) {
      faults.add(pointer, Code.SEVERAL_DAYS, "a battery holds the tests of one day");
    }
  }

  private static void addRecordId(JsonNode payload, ObjectNode battery, Origins origins) {
    JsonNode id = payload.at("/identifier/value");
    if (id.isString()) {
      battery.set("recordId", id);
      origins.note("/recordId", "/identifier/value");
    }
  }

  /** As it was sent: the clinic's offset is kept. */
  private static String earliest(Map<String, OffsetDateTime> times) {
    return times.entrySet().stream()
        .min(Map.Entry.comparingByValue(OffsetDateTime.timeLineOrder()))
        .orElseThrow()
        .getKey();
  }

  private static String pointerPart(String member) {
    return member.replace("~", "~0").replace("/", "~1");
  }
}
