package evenside.readiness.decision;

import static evenside.training.Diary.DAY_0;
import static evenside.training.Diary.check;
import static evenside.training.Diary.clearance;
import static evenside.training.Diary.flags;
import static evenside.training.Diary.morning;
import static evenside.training.Diary.response;
import static evenside.training.Diary.run;
import static evenside.training.Diary.with;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.readiness.ReadinessService;
import evenside.readiness.recording.Recorded;
import evenside.schemas.Contract;
import evenside.schemas.StrictJson;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** A clinic's own set, made for this test, asks for facts of the training record. */
class TrainingCriteriaTest {
  private static final Path SCHEMAS = Path.of("..", "schemas");
  @AutoClose private static Store store;
  private static ReadinessService service;
  private static Contract contract;
  private static int cases;

  private final String caseId = "k-" + cases++;

  @BeforeAll
  static void open(@TempDir Path folder) throws IOException {
    Path copy = folder.resolve("contract");
    for (String name : List.of("v1", "catalogue", "criteria", "instruments", "progressions")) {
      copy(SCHEMAS.resolve(name), copy.resolve(name));
    }
    Path own = Files.createDirectories(copy.resolve("criteria/house-training"));
    Files.writeString(own.resolve("1.json"), set().toString());
    contract = Contract.in(copy);
    store = Store.open(StoreSettings.inFolder(folder.resolve("store")));
    InstantSource clock = InstantSource.fixed(Instant.parse("2026-11-02T12:00:00Z"));
    service = ReadinessService.of(contract, store, clock);
  }

  private static void copy(Path from, Path to) throws IOException {
    try (Stream<Path> files = Files.walk(from)) {
      for (Path file : files.toList()) {
        Path target = to.resolve(from.relativize(file));
        if (Files.isDirectory(file)) {
          Files.createDirectories(target);
        } else {
          Files.copy(file, target);
        }
      }
    }
  }

  private static ObjectNode set() {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("schemaVersion", "1.0").put("id", "house-training").put("version", "1");
    json.put("title", "House set").put("milestone", "start-training");
    json.put("designedFor", "A test.").put("population", "Nobody.").put("basis", "clinic-protocol");
    json.putObject("source").put("source", "adams-2012");
    ObjectNode all = json.putObject("criteria").put("type", "all").put("id", "all");
    ArrayNode of = all.put("title", "All of").putArray("of");
    criterion(of, "level", "running-level-completed", 3, "{level}")
        .put("of", "running-eight-levels");
    criterion(of, "free", "pain-free-sessions-in-a-row", 2, "{sessions}");
    criterion(of, "back", "days-without-step-back", 4, "d");
    criterion(of, "field", "programme-completed", 1, "1").put("of", "on-field-programme");
    return json;
  }

  private static ObjectNode criterion(
      ArrayNode of, String id, String fact, int bound, String unit) {
    ObjectNode json = of.addObject().put("type", "training").put("id", id).put("title", id);
    json.put("fact", fact).put("comparator", ">=").put("bound", bound).put("unit", unit);
    json.putObject("citation").put("source", "adams-2012");
    return json.put("verified", true);
  }

  @BeforeEach
  void person() {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("schemaVersion", "1.0").put("subject", "P-1").put("surgeryDate", "2025-11-17");
    json.put("operatedSide", "left").put("graft", "patellar-tendon").put("otherKnee", "none");
    json.put("sex", "female").put("birthYear", 1999);
    service.cases().put("c", caseId, json, Optional.empty());
  }

  private void post(ObjectNode json) {
    json.put("recordId", json.path("recordId").asString() + "-" + caseId);
    if (json.path("entry").has("kneeCheck")) {
      ObjectNode part = json.withObject("/entry/kneeCheck");
      if (part.has("completes")) {
        part.put("completes", part.path("completes").asString() + "-" + caseId);
      }
    }
    service.sessions().add("c", caseId, json, Optional.empty());
  }

  private JsonNode decide(String asOf) {
    ObjectNode request = JsonNodeFactory.instance.objectNode().put("schemaVersion", "1.0");
    request.putObject("criteriaSet").put("id", "house-training").put("version", "1");
    request.put("asOf", asOf);
    Recorded decision = service.decisions().decide("c", caseId, request, Optional.empty());
    return StrictJson.read(decision.document().bytes(), StrictJson.Limits.OWN);
  }

  private static JsonNode finding(JsonNode decision, String id) {
    for (JsonNode one : decision.at("/finding/of")) {
      if (one.path("id").asString().equals(id)) {
        return one;
      }
    }
    throw new AssertionError(id);
  }

  private static String outcome(JsonNode decision, String id) {
    return finding(decision, id).path("outcome").asString();
  }

  private void threeLevels() {
    int[] days = {0, 2, 4};
    for (int level = 1; level <= 3; level++) {
      post(run(DAY_0.plusDays(days[level - 1]), level));
      post(morning(DAY_0.plusDays(days[level - 1])));
    }
  }

  @Test
  void facts_come_from_the_sessions_and_name_them() {
    threeLevels();
    JsonNode decision = decide(DAY_0.plusDays(6).toString());
    assertThat(contract.validate("decision", decision)).isEmpty();
    assertThat(outcome(decision, "level")).isEqualTo("met");
    assertThat(finding(decision, "level").at("/value/value").asInt()).isEqualTo(3);
    assertThat(outcome(decision, "free")).isEqualTo("met");
    assertThat(finding(decision, "free").at("/value/value").asInt()).isEqualTo(3);
    assertThat(outcome(decision, "back")).isEqualTo("met");
    assertThat(finding(decision, "back").at("/value/value").asInt()).isEqualTo(6);
    assertThat(outcome(decision, "field")).isEqualTo("undetermined");
    for (JsonNode session : finding(decision, "free").path("sessions")) {
      assertThat(UUID.fromString(session.path("sessionId").asString())).isNotNull();
    }
    assertThat(decision.path("sessions")).hasSize(6);
    assertThat(decision.path("outcome").asString()).isEqualTo("undetermined");
  }

  @Test
  void stated_completion_of_the_programme_on_the_field_meets_it() {
    threeLevels();
    post(
        with(
            run(DAY_0.plusDays(6), 3),
            e -> e.withArray("/entry/training/programmeCompleted").add("on-field-programme")));
    JsonNode decision = decide(DAY_0.plusDays(7).toString());
    assertThat(outcome(decision, "field")).isEqualTo("met");
  }

  @Test
  void case_without_sessions_is_undetermined() {
    JsonNode decision = decide("2026-04-01");
    assertThat(decision.path("undetermined")).hasSize(4);
    assertThat(finding(decision, "free").at("/reason/code").asString()).isEqualTo("not-recorded");
    assertThat(decision.has("sessions")).isFalse();
  }

  /** What is not answered leaves open what it could change, and nothing else. */
  @Test
  void unanswered_morning_leaves_the_last_session_open() {
    threeLevels();
    post(run(DAY_0.plusDays(9), 3));
    JsonNode decision = decide(DAY_0.plusDays(9).toString());
    assertThat(outcome(decision, "free")).isEqualTo("undetermined");
    assertThat(finding(decision, "free").at("/value/value").asInt()).isZero();
    assertThat(outcome(decision, "level")).isEqualTo("met");
  }

  @Test
  void pain_and_step_back_count_from_the_newest() {
    threeLevels();
    post(with(run(DAY_0.plusDays(6), 3), e -> response(e).withObject("/pain").put("worst", 6)));
    post(morning(DAY_0.plusDays(6)));
    JsonNode decision = decide(DAY_0.plusDays(8).toString());
    assertThat(outcome(decision, "free")).isEqualTo("not-met");
    assertThat(outcome(decision, "back")).isEqualTo("not-met");
    assertThat(finding(decision, "back").at("/value/value").asInt()).isEqualTo(2);
    assertThat(outcome(decide(DAY_0.plusDays(10).toString()), "back")).isEqualTo("met");
  }

  @Test
  void sessions_after_the_date_take_no_part() {
    threeLevels();
    JsonNode decision = decide(DAY_0.plusDays(3).toString());
    assertThat(outcome(decision, "level")).isEqualTo("not-met");
    assertThat(finding(decision, "level").at("/value/value").asInt()).isEqualTo(2);
    assertThat(decision.path("sessions")).hasSize(4);
  }

  /** All that went in is kept by value, so that the decision can be computed again from it. */
  @Test
  void inputs_hold_the_sessions() {
    threeLevels();
    JsonNode decision = decide(DAY_0.plusDays(6).toString());
    UUID id = UUID.fromString(decision.path("decisionId").asString());
    byte[] kept = store.read(reading -> reading.decision("c", id).orElseThrow().inputs());
    JsonNode inputs = StrictJson.read(kept, StrictJson.Limits.OWN);
    assertThat(inputs.path("sessions")).hasSize(6);
    for (JsonNode session : inputs.path("sessions")) {
      assertThat(contract.validate("session", session.path("session"))).isEmpty();
    }
  }

  /** A warning sign from training travels with every decision until a clinician clears it. */
  @Test
  void standing_red_flag_travels_with_any_decision() {
    post(
        with(
            check("evening", DAY_0 + "T20:00:00+01:00"),
            c -> flags(c).put("calfPain", "yes").put("calfSwelling", "yes")));
    assertThat(cautions("2026-03-20")).contains("standing-red-flag");
    post(clearance("seen", "2026-03-21T09:00:00+01:00", "evening-" + caseId));
    assertThat(cautions("2026-03-20")).contains("standing-red-flag");
    assertThat(cautions("2026-03-21")).doesNotContain("standing-red-flag");
  }

  private List<String> cautions(String asOf) {
    ObjectNode request = JsonNodeFactory.instance.objectNode().put("schemaVersion", "1.0");
    request.put("milestone", "start-running").put("asOf", asOf);
    Recorded decision = service.decisions().decide("c", caseId, request, Optional.empty());
    return StrictJson.read(decision.document().bytes(), StrictJson.Limits.OWN)
        .path("cautions")
        .valueStream()
        .map(caution -> caution.path("code").asString())
        .toList();
  }
}
