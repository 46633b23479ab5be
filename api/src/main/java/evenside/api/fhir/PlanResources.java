package evenside.api.fhir;

import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A plan as a CarePlan with Goals: one that a clinician adopted (intent plan), and one that the
 * service proposes (intent proposal), whose Goals carry what each test still needs.
 */
public final class PlanResources {
  private final Codes codes;

  /** Writes in these codes. */
  public PlanResources(Codes codes) {
    this.codes = codes;
  }

  /**
   * An adopted plan: CarePlan, then its Goal.
   *
   * @param document the adopted plan's record
   * @param subject reference of the person
   */
  public List<ObjectNode> adopted(JsonNode document, String subject) {
    JsonNode plan = document.path("plan");
    String id = document.path("planId").asString();
    ObjectNode json = started(id, "plan", subject);
    json.putArray("identifier").add(Fhir.identifier("plan", id));
    json.putArray("category").add(codes.milestone(plan.path("milestone").asString()));
    json.put("created", document.path("adoptedAt").asString());
    json.set("author", Fhir.logical("Practitioner", "clinician", text(plan, "adoptedBy")));
    ObjectNode period = json.putObject("period").put("start", text(plan, "from"));
    if (plan.has("until")) {
      period.put("end", text(plan, "until"));
    }
    addNote(json, plan);
    ArrayNode activities = json.putArray("activity");
    plan.path("items").forEach(item -> activities.add(exercise(item)));
    plan.path("retests").forEach(retest -> activities.add(retest(retest)));
    ObjectNode goal = milestoneGoal(id, plan, subject);
    json.putArray("goal").add(Fhir.reference(goal));
    return List.of(json, goal);
  }

  private static ObjectNode started(String id, String intent, String subject) {
    ObjectNode json = Fhir.resource("CarePlan", id);
    json.put("status", intent.equals("plan") ? "active" : "draft").put("intent", intent);
    json.put("title", "Rehabilitation after reconstruction of the anterior cruciate ligament");
    json.set("subject", Visit.person(subject));
    return json;
  }

  private static void addNote(ObjectNode json, JsonNode plan) {
    if (plan.has("note")) {
      json.putArray("note").addObject().put("text", text(plan, "note"));
    }
  }

  private ObjectNode milestoneGoal(String id, JsonNode plan, String subject) {
    ObjectNode goal = goal(id + "-goal", subject);
    ObjectNode concept = codes.milestone(text(plan, "milestone"));
    goal.set("description", concept);
    goal.put("startDate", text(plan, "from"));
    if (plan.has("until")) {
      ObjectNode target = goal.putArray("target").addObject();
      target.set("measure", concept.deepCopy());
      target.put("dueDate", text(plan, "until"));
    }
    return goal;
  }

  private static ObjectNode goal(String id, String subject) {
    ObjectNode goal = Fhir.resource("Goal", id).put("lifecycleStatus", "active");
    goal.set("subject", Visit.person(subject));
    return goal;
  }

  private ObjectNode exercise(JsonNode item) {
    ObjectNode activity = Fhir.object();
    ObjectNode detail = activity.putObject("detail").put("kind", "ServiceRequest");
    detail.set("code", codes.exercise(text(item, "exercise")));
    detail.put("status", "scheduled");
    ObjectNode repeat = detail.putObject("scheduledTiming").putObject("repeat");
    repeat.put("frequency", item.path("timesPerWeek").asInt());
    repeat.put("period", 1).put("periodUnit", "wk");
    String dose = dose(item);
    if (!dose.isEmpty()) {
      detail.put("description", dose);
    }
    return activity;
  }

  private static String dose(JsonNode item) {
    List<String> parts = new ArrayList<>();
    if (item.has("sets")) {
      parts.add(item.path("sets").asInt() + " sets");
    }
    if (item.has("repetitions")) {
      parts.add(item.path("repetitions").asInt() + " repetitions");
    }
    if (item.has("load")) {
      parts.add(
          item.at("/load/value").decimalValue().toPlainString()
              + " "
              + item.at("/load/unit").asString());
    }
    if (item.path("withTherapist").asBoolean(false)) {
      parts.add("with the therapist present");
    }
    if (item.has("focusArea")) {
      parts.add("for " + text(item, "focusArea"));
    }
    if (item.has("note")) {
      parts.add(text(item, "note"));
    }
    return String.join(", ", parts);
  }

  private ObjectNode retest(JsonNode retest) {
    ObjectNode activity = Fhir.object();
    ObjectNode detail = activity.putObject("detail").put("kind", "ServiceRequest");
    detail.set("code", codes.measure(text(retest, "measure")));
    detail.put("status", "scheduled");
    detail.putObject("scheduledTiming").putArray("event").add(text(retest, "on"));
    return activity;
  }

  /**
   * A proposed plan: CarePlan, then a Goal for each thing that falls short.
   *
   * @param plan the plan as served
   * @param subject reference of the person
   */
  public List<ObjectNode> proposed(JsonNode plan, String subject) {
    String id = "proposal-" + text(plan, "asOf");
    ObjectNode json = started(id, "proposal", subject);
    json.putArray("category").add(codes.milestone(plan.at("/criteriaSet/milestone").asString()));
    json.put("description", text(plan, "summary"));
    json.put("created", text(plan, "asOf"));
    json.set("author", Devices.reference());
    json.putArray("instantiatesCanonical")
        .add(CriteriaResources.canonical("PlanDefinition", plan.path("criteriaSet")));
    List<ObjectNode> goals = new ArrayList<>();
    for (JsonNode item : plan.path("items")) {
      goals.add(shortfall(id + "-goal-" + goals.size(), item, subject));
    }
    if (!goals.isEmpty()) {
      ArrayNode references = json.putArray("goal");
      goals.forEach(goal -> references.add(Fhir.reference(goal)));
    }
    List<ObjectNode> all = new ArrayList<>(List.of(json));
    all.addAll(goals);
    all.add(Devices.service(text(plan, "engineVersion")));
    return all;
  }

  private ObjectNode shortfall(String id, JsonNode item, String subject) {
    ObjectNode goal = goal(id, subject).put("lifecycleStatus", "proposed");
    ObjectNode description = goal.putObject("description");
    description.put("text", item.at("/finding/title").asString());
    List<ObjectNode> targets = new ArrayList<>();
    for (JsonNode deficit : item.path("deficits")) {
      targets.add(target(item, deficit.path("needed")));
    }
    if (!targets.isEmpty()) {
      goal.putArray("target").addAll(targets);
    }
    return goal;
  }

  private ObjectNode target(JsonNode item, JsonNode needed) {
    ObjectNode target = Fhir.object();
    target.set("measure", codes.measure(text(item, "measure")));
    ObjectNode quantity = Fhir.quantity(needed);
    target.set("detailQuantity", quantity.put("comparator", text(needed, "comparator")));
    return target;
  }

  private static String text(JsonNode node, String name) {
    return node.path(name).asString("");
  }
}
