package evenside.intake;

import evenside.criteria.CriteriaSet;
import evenside.limb.Side;
import evenside.measure.MeasureCatalogue;
import evenside.questionnaire.Instruments;
import evenside.schemas.Contract;
import evenside.schemas.Fault;
import evenside.schemas.Faults;
import evenside.training.Session;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;

/**
 * Checks documents against their schema and against the rules between members, all faults at once.
 * What this accepts, the readers of this package can read.
 */
public final class Intake {
  private final Contract contract;
  private final CatalogueReader sources;
  private final MeasureCatalogue catalogue;
  private final Instruments instruments;
  private final PlanReader plans;
  private final Map<String, String> usualSets;
  private final TrainingCatalogue training;

  /** Takes what the rules look things up in. */
  public Intake(
      Contract contract,
      CatalogueReader sources,
      MeasureCatalogue catalogue,
      Instruments instruments) {
    this.plans = new PlanReader(contract);
    this.contract = contract;
    this.sources = sources;
    this.catalogue = catalogue;
    this.instruments = instruments;
    this.usualSets = sources.usualCriteriaSets();
    this.training = new TrainingCatalogue(contract, sources);
  }

  /** The published progressions and exercises. */
  public TrainingCatalogue training() {
    return training;
  }

  /** What trains what. */
  public PlanReader plans() {
    return plans;
  }

  /**
   * What a check may know beside the document.
   *
   * @param now the time of the check
   * @param operatedSide of the case a battery or session is for, or null
   * @param surgery day of that case's reconstruction, or null
   * @param criteriaSets finds a criteria set by {@code id/version}
   * @param sessions the other entries of the case's training record, as far as they are known
   */
  public record Context(
      Instant now,
      @Nullable Side operatedSide,
      @Nullable LocalDate surgery,
      Function<String, Optional<CriteriaSet>> criteriaSets,
      Optional<List<Session>> sessions) {

    /** Without a training record. */
    public Context(
        Instant now,
        @Nullable Side operatedSide,
        Function<String, Optional<CriteriaSet>> criteriaSets) {
      this(now, operatedSide, null, criteriaSets, Optional.empty());
    }
  }

  /**
   * Checks a document of a kind.
   *
   * @throws IllegalArgumentException if there is no such kind of document
   */
  public Checked check(String kind, JsonNode document, Context context) {
    List<Fault> schema = contract.validate(kind, document);
    RuleFaults faults = new RuleFaults(JsonPointer.empty());
    RuleFaults warnings = new RuleFaults(JsonPointer.empty());
    List<Fault> found = new ArrayList<>(schema);
    List<Fault> worthALook = new ArrayList<>();
    if (document.isObject()) {
      switch (kind) {
        case "case" -> CaseRules.check(document, context.now(), faults);
        case "battery" ->
            new BatteryRules(catalogue, instruments, faults, warnings)
                .check(document, context.operatedSide(), context.now());
        case "session" -> session(document, context, faults, warnings);
        case "determination" ->
            CommonRules.instant(document, "determinedAt", context.now(), faults);
        case "what-if-request" -> namedSet(document.path("criteriaSet"), "", context, faults);
        case "criteria-set" -> criteriaSet(document, schema, faults);
        case "decision-request" -> decisionRequest(document, context, faults);
        case "adopted-plan" -> {
          setOfMilestone(document, context, faults);
          new AdoptedPlanRules(catalogue, plans, faults).check(document);
        }
        case "assessment-request" -> assessment(document, context, found, worthALook, faults);
        default -> {}
      }
    }
    found.addAll(faults.all());
    worthALook.addAll(warnings.all());
    return new Checked(withoutEchoes(found, schema), Faults.inOrder(worthALook));
  }

  /** A rule adds nothing at or below a place that the schema already found fault with. */
  private static List<Fault> withoutEchoes(List<Fault> found, List<Fault> schema) {
    // As text, which is found fast in a set even where a sender chose names of one hash.
    Set<String> fromSchema = schema.stream().map(Intake::key).collect(Collectors.toSet());
    Set<String> said = new HashSet<>();
    List<Fault> kept =
        found.stream()
            .filter(fault -> fromSchema.contains(key(fault)) || !touches(fault, schema))
            .filter(fault -> said.add(key(fault)))
            .toList();
    return Faults.inOrder(kept);
  }

  private static String key(Fault fault) {
    return fault.pointer() + " " + fault.code();
  }

  private static boolean touches(Fault fault, List<Fault> schema) {
    return schema.stream()
        .map(Fault::pointer)
        .anyMatch(
            place -> fault.pointer().equals(place) || fault.pointer().startsWith(place + "/"));
  }

  private void session(JsonNode json, Context context, RuleFaults faults, RuleFaults warnings) {
    new SessionRules(training, faults, warnings)
        .check(json, context.operatedSide(), context.surgery(), context.now());
    context
        .sessions()
        .ifPresent(known -> new RecordRules(training, known, true, faults, warnings).check(json));
  }

  private void criteriaSet(JsonNode json, List<Fault> schema, RuleFaults faults) {
    if (schema.isEmpty()) {
      new CriteriaSetRules(sources, catalogue, faults).check(json);
    }
  }

  /** The set that is named, or the usual one of the milestone. */
  private void setOfMilestone(JsonNode json, Context context, RuleFaults faults) {
    String milestone = json.path("milestone").asString("");
    if (json.path("criteriaSet").isObject()) {
      namedSet(json.path("criteriaSet"), milestone, context, faults);
    } else if (!milestone.isEmpty() && !usualSets.containsKey(milestone)) {
      faults.add(
          "/milestone",
          RuleCode.MILESTONE_NO_USUAL_SET,
          "this milestone has no usual criteria set; name one in criteriaSet",
          milestonesWithUsualSet());
    }
  }

  /** The milestones that need no set to be named, as the limit of a fault. */
  public String milestonesWithUsualSet() {
    return "milestones with a usual set: "
        + String.join(", ", usualSets.keySet().stream().sorted().toList());
  }

  private void decisionRequest(JsonNode json, Context context, RuleFaults faults) {
    setOfMilestone(json, context, faults);
    Optional<LocalDate> asOf = CommonRules.date(json, "asOf");
    LocalDate today = CommonRules.latestToday(context.now());
    if (asOf.isPresent() && asOf.get().isAfter(today)) {
      faults.add(
          "/asOf",
          RuleCode.DATE_IN_FUTURE,
          "a decision is recorded for today or an earlier date; an assessment may look ahead",
          "at the latest " + today);
    }
  }

  private static void namedSet(
      JsonNode reference, String milestone, Context context, RuleFaults faults) {
    if (!named(reference)) {
      return;
    }
    Optional<CriteriaSet> set = context.criteriaSets().apply(name(reference));
    if (set.isEmpty()) {
      unknownSet("/criteriaSet", faults);
    } else if (!milestone.isEmpty() && !milestone.equals(set.get().milestone())) {
      faults.add(
          "/criteriaSet",
          RuleCode.CRITERIA_SET_OTHER_MILESTONE,
          "this set is for " + set.get().milestone(),
          milestone);
    }
  }

  /** The schema has said so if a reference is not whole; then it names no set at all. */
  private static boolean named(JsonNode reference) {
    return reference.path("id").isString() && reference.path("version").isString();
  }

  private void assessment(
      JsonNode json, Context context, List<Fault> found, List<Fault> warned, RuleFaults faults) {
    JsonPointer caseAt = JsonPointer.compile("/case");
    RuleFaults ofCase = new RuleFaults(caseAt);
    if (json.path("case").isObject()) {
      CaseRules.check(json.path("case"), context.now(), ofCase);
    }
    found.addAll(ofCase.all());
    Side side = side(json.path("case").path("operatedSide").asString(""));
    JsonNode batteries = json.path("batteries");
    for (int i = 0; i < batteries.size(); i++) {
      if (!batteries.path(i).isObject()) {
        continue;
      }
      JsonPointer at = JsonPointer.compile("/batteries/" + i);
      RuleFaults ofBattery = new RuleFaults(at);
      RuleFaults warnings = new RuleFaults(at);
      new BatteryRules(catalogue, instruments, ofBattery, warnings)
          .check(batteries.path(i), side, context.now());
      found.addAll(ofBattery.all());
      warned.addAll(warnings.all());
    }
    Optional<LocalDate> surgery = CommonRules.date(json.path("case"), "surgeryDate");
    new InlineSessions(training, json.path("sessions"), side, surgery.orElse(null), context.now())
        .check(found, warned);
    Set<String> seen = new HashSet<>();
    JsonNode sets = json.path("criteriaSets");
    for (int i = 0; i < sets.size(); i++) {
      if (!named(sets.path(i))) {
        continue;
      }
      String name = name(sets.path(i));
      if (context.criteriaSets().apply(name).isEmpty()) {
        unknownSet("/criteriaSets/" + i, faults);
      } else if (!seen.add(name)) {
        faults.add("/criteriaSets/" + i, RuleCode.CRITERIA_SET_DUPLICATE, "the set is named twice");
      }
    }
    Optional<LocalDate> asOf = CommonRules.date(json, "asOf");
    if (asOf.isPresent() && surgery.isPresent() && asOf.get().isBefore(surgery.get())) {
      faults.add(
          "/asOf",
          RuleCode.DATE_BEFORE_SURGERY,
          "before the surgery",
          "from " + surgery.get() + " on");
    }
  }

  private static void unknownSet(String pointer, RuleFaults faults) {
    faults.add(
        pointer,
        RuleCode.CRITERIA_SET_UNKNOWN,
        "there is no such criteria set in this version; /v1/criteria-sets lists them");
  }

  /** {@code id/version} of a reference to a criteria set. */
  public static String name(JsonNode reference) {
    return reference.path("id").asString("") + "/" + reference.path("version").asString("");
  }

  private static @Nullable Side side(String code) {
    return code.equals("left") || code.equals("right") ? Side.of(code) : null;
  }
}
