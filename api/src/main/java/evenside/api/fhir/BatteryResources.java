package evenside.api.fhir;

import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A battery as a DiagnosticReport with its Observations: what was tested, the legs compared, and
 * what was worked out, each derived from what it was made of.
 */
public final class BatteryResources {
  private final Codes codes;
  private final Members members;
  private final ResultObservations results;

  /** Writes in these codes. */
  public BatteryResources(Codes codes) {
    this.codes = codes;
    this.members = new Members(codes);
    this.results = new ResultObservations(codes);
  }

  /** The report first, then its Observations. */
  public List<ObjectNode> of(Visit visit) {
    List<ObjectNode> observations = new ArrayList<>();
    addBody(visit, observations);
    observations.addAll(results.of(visit));
    addComparisons(visit, observations);
    addWorkedOut(visit, observations);
    List<ObjectNode> all = new ArrayList<>(List.of(report(visit, observations)));
    all.addAll(observations);
    return all;
  }

  private ObjectNode report(Visit visit, List<ObjectNode> observations) {
    ObjectNode json = Fhir.resource("DiagnosticReport", visit.id());
    ArrayNode identifiers = json.putArray("identifier");
    identifiers.add(Fhir.identifier("battery", visit.id()));
    if (visit.battery().has("recordId")) {
      identifiers.add(Fhir.identifier("record", visit.battery().path("recordId").asString()));
    }
    json.put("status", "final");
    json.putArray("category").add(codes.term("document", "battery-category"));
    json.set("code", codes.term("document", "battery"));
    json.set("subject", visit.person());
    json.put("effectiveDateTime", visit.performedAt());
    json.put("issued", visit.document().path("receivedAt").asString());
    ArrayNode references = json.putArray("result");
    observations.forEach(one -> references.add(Fhir.reference(one)));
    return json;
  }

  private void addBody(Visit visit, List<ObjectNode> into) {
    addVitalSign(visit, "bodyMass", "bodyweight", into);
    addVitalSign(visit, "height", "bodyheight", into);
    JsonNode lengths = visit.battery().path("limbLength");
    for (String side : List.of("left", "right")) {
      if (lengths.has(side)) {
        ObjectNode length = addLength(visit, "limbLength", lengths.path(side), "-" + side, into);
        length.set("bodySite", codes.knee(side));
      }
    }
    if (visit.battery().has("shankLength")) {
      addLength(visit, "shankLength", visit.battery().path("shankLength"), "", into);
    }
  }

  private void addVitalSign(Visit visit, String member, String profile, List<ObjectNode> into) {
    if (visit.battery().has(member)) {
      ObjectNode json =
          visit.observation(
              member, codes.external("category-vital-signs"), codes.vitalSign(member));
      json.putObject("meta")
          .putArray("profile")
          .add("http://hl7.org/fhir/StructureDefinition/" + profile);
      json.set("valueQuantity", Fhir.quantity(visit.battery().path(member)));
      into.add(json);
    }
  }

  private ObjectNode addLength(
      Visit visit, String member, JsonNode length, String suffix, List<ObjectNode> into) {
    ObjectNode json =
        visit.observation(
            member + suffix, codes.external("category-exam"), codes.term("member", member));
    json.set("valueQuantity", Fhir.quantity(length));
    into.add(json);
    return json;
  }

  private void addComparisons(Visit visit, List<ObjectNode> into) {
    JsonNode comparisons = visit.document().path("symmetry");
    for (int i = 0; i < comparisons.size(); i++) {
      JsonNode one = comparisons.get(i);
      String measure = one.path("measure").asString();
      ObjectNode json =
          visit.observation(
              "symmetry-" + i, codes.external("category-exam"), codes.symmetry(measure));
      JsonNode value = one.has("symmetry") ? one.path("symmetry") : one.path("difference");
      if (value.isMissingNode()) {
        json.set("dataAbsentReason", members.absent("absent-unknown"));
        json.putArray("note").addObject().put("text", one.at("/reason/text").asString());
      } else {
        json.set("valueQuantity", Fhir.quantity(value));
      }
      members.describe(json, one.path("protocol"));
      addInterval(json, one.path("interval"));
      List<ObjectNode> from = visit.references(measure, one.path("protocol"));
      if (!from.isEmpty()) {
        json.putArray("derivedFrom").addAll(from);
      }
      into.add(json);
    }
  }

  /** How far a symmetry may be off, with whose figure it is. */
  private void addInterval(ObjectNode json, JsonNode interval) {
    if (!interval.path("bounded").asBoolean(false)) {
      return;
    }
    ArrayNode components = json.withArray("component");
    for (String end : List.of("low", "high")) {
      ObjectNode component = components.addObject();
      String name = end.equals("low") ? "intervalLow" : "intervalHigh";
      component.set("code", codes.term("member", name));
      component.set("valueQuantity", Fhir.quantity(interval.path(end), "%"));
    }
    String source = interval.path("source").asString("");
    String basis = interval.path("basis").asString();
    json.putArray("note")
        .addObject()
        .put("text", "Interval: " + basis + (source.isEmpty() ? "" : ", " + source));
  }

  private void addWorkedOut(Visit visit, List<ObjectNode> into) {
    JsonNode all = visit.document().path("workedOut");
    for (int i = 0; i < all.size(); i++) {
      JsonNode one = all.get(i);
      String aspect = one.path("aspect").asString();
      ObjectNode code = codes.aspect(one.path("measure").asString(), aspect);
      ObjectNode json = visit.observation("worked-out-" + i, codes.external("category-exam"), code);
      members.put(json, one.path("value"), "effusion-grade");
      if (!aspect.equals("value")) {
        json.set("bodySite", codes.knee(visit.side(aspect.startsWith("operated"))));
      }
      members.describe(json, one.path("protocol"));
      ArrayNode from = json.putArray("derivedFrom");
      one.path("from").forEach(pointer -> from.add(visit.reference(pointer.asString())));
      into.add(json);
    }
  }
}
