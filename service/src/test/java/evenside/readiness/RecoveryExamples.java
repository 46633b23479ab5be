package evenside.readiness;

import evenside.readiness.recording.Recorded;
import evenside.readiness.recovery.Recovery;
import evenside.readiness.recovery.Wanted;
import evenside.schemas.StrictJson;
import evenside.store.cohort.CohortFilter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** The published examples of answers about the course of a case and about a cohort. */
final class RecoveryExamples {
  private static final Pattern UUID =
      Pattern.compile("[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[0-9a-f]{4}-[0-9a-f]{12}");
  private static final LocalDate SURGERY = LocalDate.parse("2026-01-05");
  private static final LocalDate TODAY = SURGERY.plusWeeks(32);
  private static final String SET = "cristiani-2019-symmetry/1";
  private static final int[][] COURSE = {{12, 116}, {16, 133}, {20, 142}, {26, 161}, {32, 168}};

  private final Rehab rehab;
  private final Map<String, JsonNode> made = new LinkedHashMap<>();
  private final Map<String, String> ids = new LinkedHashMap<>();

  private RecoveryExamples(Rehab rehab) {
    this.rehab = rehab;
  }

  /** The answers by their path below the folder of valid examples. */
  static Map<String, JsonNode> of(Path data) {
    try (Rehab rehab = Rehab.in(data)) {
      RecoveryExamples examples = new RecoveryExamples(rehab);
      examples.record();
      examples.ask();
      examples.adopt();
      return examples.made;
    }
  }

  private void record() {
    rehab.put("knee-1", Rehab.person(SURGERY));
    for (int[] test : COURSE) {
      Tests tests = Tests.on(SURGERY.plusWeeks(test[0]));
      tests.torque("knee-extension-peak-torque", test[1], 200);
      rehab.test("knee-1", tests.hop("single-hop-distance", test[1] - 20, 165).effusion("trace"));
    }
    rehab.decide("knee-1", SET, TODAY);
    for (int i = 2; i <= 12; i++) {
      String caseId = rehab.put("knee-" + i, Rehab.person(SURGERY.plusDays(i)));
      Tests tests = Tests.on(TODAY);
      tests.torque("knee-extension-peak-torque", i < 7 ? 95 : 80, 100);
      tests.torque("knee-flexion-peak-torque", 95, 100);
      rehab.test(caseId, tests.hop("single-hop-distance", 150, 155));
      rehab.decide(caseId, SET, TODAY);
    }
  }

  private void ask() {
    Wanted wanted = Rehab.wanted(SET, TODAY);
    Recovery recovery = rehab.service.recovery();
    keep("progress/after-five-batteries", recovery.progress(Rehab.CLINIC, "knee-1", wanted));
    keep("plan/after-five-batteries", recovery.plan(Rehab.CLINIC, "knee-1", wanted));
    keep(
        "milestone-overview/in-the-eighth-month",
        recovery.milestones(Rehab.CLINIC, "knee-1", Optional.of(TODAY)));
    Cohorts.Asked asked =
        new Cohorts.Asked(
            new Wanted(Optional.empty(), Optional.of(SET), Optional.empty()),
            Optional.of(SURGERY),
            Optional.of(TODAY),
            CohortFilter.EVERYBODY);
    keep("cohort/of-twelve-people", rehab.service.cohorts().of(Rehab.CLINIC, asked));
  }

  private void adopt() {
    ObjectNode plan = JsonNodeFactory.instance.objectNode().put("schemaVersion", "1.0");
    plan.put("milestone", "symmetry-checkpoint").put("adoptedBy", "clinician-7");
    plan.put("from", TODAY.toString()).put("until", TODAY.plusWeeks(6).toString());
    plan.putArray("items").addObject().put("exercise", "loaded-split-squat").put("timesPerWeek", 3);
    Recorded adopted = rehab.service.plans().adopt(Rehab.CLINIC, "knee-1", plan, Optional.empty());
    keep("adopted-plan-record/of-six-weeks", adopted.document());
    String squats =
        """
        {"work": {"strength": [{"exercise": "loaded-split-squat", "side": "left",
          "completed": {"repetitions": [10, 10, 10], "times": 1}}]}}
        """;
    for (int day : new int[] {1, 3, 8}) {
      rehab.train("knee-1", TODAY.plusDays(day), squats);
    }
    keep(
        "adherence/of-two-weeks",
        rehab
            .service
            .plans()
            .adherence(Rehab.CLINIC, adopted.id(), Optional.of(TODAY.plusDays(13))));
  }

  /** Keeps an answer, its identifiers replaced by fixed ones in the order of their appearance. */
  private void keep(String name, evenside.document.Document document) {
    Matcher found = UUID.matcher(document.toString());
    String text =
        found.replaceAll(
            id ->
                ids.computeIfAbsent(
                    id.group(), any -> "019a0000-0000-7000-8000-%012d".formatted(ids.size() + 11)));
    made.put(name, StrictJson.read(text.getBytes(StandardCharsets.UTF_8), StrictJson.Limits.OWN));
  }
}
