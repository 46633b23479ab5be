package evenside.readiness.cases;

import static evenside.readiness.Office.refused;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.document.Document;
import evenside.example.Clinic;
import evenside.example.TestDay;
import evenside.readiness.Office;
import evenside.readiness.recording.IdempotencyKey;
import evenside.readiness.recording.Page;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

class BatteriesTest {
  private static final String DAY = "2026-10-20T10:00:00+02:00";

  @AutoClose private static Office office;

  @BeforeAll
  static void open(@TempDir Path folder) {
    office = Office.in(folder);
  }

  @Test
  void battery_isKeptAsSentWithItsSymmetry() {
    String caseId = office.newCase(Clinic.person());
    TestDay day = TestDay.at(DAY).extension("left", 60, 161.1).extension("right", 60, 179.0);
    Recorded made = office.add(caseId, day);
    assertThat(made.novelty()).isEqualTo(Recorded.Novelty.CREATED);
    assertThat(get(made.id())).isEqualTo(made.document());
    JsonNode json = Clinic.read(made.document());
    assertThat(json.path("battery")).isEqualTo(read(day.json()));
    assertThat(json.path("caseId").asString()).isEqualTo(caseId);
    assertThat(json.path("sha256").asString()).isEqualTo(Document.of(day.json()).sha256());
    assertThat(json.at("/symmetry/0/symmetry/value").asDouble()).isEqualTo(90.0);
    assertThat(UUID.fromString(made.id()).version()).isEqualTo(7);
  }

  @Test
  void legAlone_isAWarningBesideTheRecord() {
    String caseId = office.newCase(Clinic.person());
    JsonNode json =
        Clinic.read(office.add(caseId, TestDay.at(DAY).timedHop("left", 2.0)).document());
    assertThat(json.at("/warnings/0/code").asString()).isEqualTo("sides.not-compared");
    assertThat(json.at("/warnings/0/pointer").asString()).isEqualTo("#/results/hopTime/0");
    TestDay slip = TestDay.at(DAY).timedHop("left", 2.0).timedHop("right", 9.9);
    assertThat(Clinic.read(office.add(caseId, slip).document()).at("/warnings/0/code").asString())
        .isEqualTo("symmetry.unusual");
  }

  /** Values from before the injury are of use, and so is a word to whoever mistyped the year. */
  @Test
  void batteryBeforeTheSurgery_isTakenWithAWarning() {
    String caseId = office.newCase(Clinic.person());
    TestDay day = TestDay.meetingEverything("2016-10-20T10:00:00+02:00");
    JsonNode json = Clinic.read(office.add(caseId, day).document());
    assertThat(json.at("/warnings/0/code").asString()).isEqualTo("battery.before-surgery");
    assertThat(json.at("/warnings/0/pointer").asString()).isEqualTo("#/performedAt");
    assertThat(json.at("/warnings/0/limit").asString()).contains(Clinic.SURGERY);
    TestDay onTheDay = TestDay.meetingEverything(Clinic.SURGERY + "T08:00:00+02:00");
    json = Clinic.read(office.add(caseId, onTheDay).document());
    assertThat(json.at("/warnings/0/code").asString()).isEqualTo("battery.before-surgery");
    String next = LocalDate.parse(Clinic.SURGERY).plusDays(1) + "T08:00:00+02:00";
    JsonNode after = Clinic.read(office.add(caseId, TestDay.meetingEverything(next)).document());
    assertThat(after.path("warnings").toString()).doesNotContain("before-surgery");
  }

  @Test
  void sameRecordIdWithSameContent_isTheSameBattery() {
    String caseId = office.newCase(Clinic.person());
    TestDay day = TestDay.meetingEverything(DAY).recordId("visit-" + caseId);
    Recorded made = office.add(caseId, day);
    Recorded again = office.add(caseId, day);
    assertThat(again.novelty()).isEqualTo(Recorded.Novelty.UNCHANGED);
    assertThat(again.id()).isEqualTo(made.id());
    assertThat(again.document()).isEqualTo(made.document());
    assertThat(list(caseId)).hasSize(1);
  }

  @Test
  void sameRecordIdWithOtherContentOrCase_isAConflict() {
    String caseId = office.newCase(Clinic.person());
    String other = office.newCase(Clinic.person());
    TestDay day = TestDay.meetingEverything(DAY).recordId("twice-" + caseId);
    office.add(caseId, day);
    refused(Refusal.CONFLICT, () -> office.add(other, day));
    TestDay changed = TestDay.at(DAY).tTest(10.1).recordId("twice-" + caseId);
    refused(Refusal.CONFLICT, () -> office.add(caseId, changed));
    assertThat(list(caseId)).hasSize(1);
    assertThat(list(other)).isEmpty();
  }

  @Test
  void repeatedRequest_isAnsweredWithItsFirstAnswer() {
    String caseId = office.newCase(Clinic.person());
    Optional<IdempotencyKey> key = Optional.of(new IdempotencyKey("key-" + caseId, "a".repeat(64)));
    Recorded made = add(caseId, TestDay.meetingEverything(DAY), key);
    Recorded again = add(caseId, TestDay.meetingEverything(DAY), key);
    assertThat(again.novelty()).isEqualTo(Recorded.Novelty.REPLAYED);
    assertThat(again.document()).isEqualTo(made.document());
    Optional<IdempotencyKey> reused =
        Optional.of(new IdempotencyKey("key-" + caseId, "b".repeat(64)));
    refused(Refusal.KEY_REUSED, () -> add(caseId, TestDay.at(DAY).tTest(10.1), reused));
    assertThat(list(caseId)).hasSize(1);
  }

  @Test
  void keyOfARefusedRequest_mayBeUsedAgain() {
    String caseId = office.newCase(Clinic.person());
    Optional<IdempotencyKey> key = Optional.of(new IdempotencyKey("bad-" + caseId, "a".repeat(64)));
    TestDay faulty = TestDay.at("2027-01-01T10:00:00Z").tTest(10.1);
    refused(Refusal.INVALID, () -> add(caseId, faulty, key));
    assertThat(add(caseId, TestDay.at(DAY).tTest(10.1), key).novelty())
        .isEqualTo(Recorded.Novelty.CREATED);
  }

  @Test
  void fiftyEqualRequestsAtOnce_makeOneBattery() throws InterruptedException, ExecutionException {
    String caseId = office.newCase(Clinic.person());
    Optional<IdempotencyKey> key =
        Optional.of(new IdempotencyKey("many-" + caseId, "a".repeat(64)));
    assertOne(caseId, () -> add(caseId, TestDay.meetingEverything(DAY), key));
    String other = office.newCase(Clinic.person());
    assertOne(
        other, () -> office.add(other, TestDay.meetingEverything(DAY).recordId("m-" + other)));
  }

  private static void assertOne(String caseId, Callable<Recorded> request)
      throws InterruptedException, ExecutionException {
    ExecutorService threads = Executors.newFixedThreadPool(50);
    try {
      List<Future<Recorded>> answers = new ArrayList<>();
      for (int i = 0; i < 50; i++) {
        answers.add(threads.submit(request));
      }
      Document first = answers.get(0).get().document();
      int created = 0;
      for (Future<Recorded> answer : answers) {
        assertThat(answer.get().document()).isEqualTo(first);
        created += answer.get().novelty() == Recorded.Novelty.CREATED ? 1 : 0;
      }
      assertThat(created).isEqualTo(1);
      assertThat(list(caseId)).hasSize(1);
    } finally {
      threads.shutdownNow();
    }
  }

  @Test
  void faultyBattery_isRefusedWithEveryFaultAndNotStored() {
    String caseId = office.newCase(Clinic.person());
    ObjectNode json = TestDay.at("2027-01-01T10:00:00Z").tTest(99).json();
    json.put("operatedSide", "right");
    Refused refused =
        refused(
            Refusal.INVALID,
            () -> office.service.batteries().add(Office.CLINIC, caseId, json, Optional.empty()));
    assertThat(refused.faults()).hasSize(3);
    assertThat(list(caseId)).isEmpty();
  }

  @Test
  void whatIsNotThere_isNotFound() {
    refused(Refusal.NOT_FOUND, () -> office.add("nobody", TestDay.meetingEverything(DAY)));
    refused(Refusal.NOT_FOUND, () -> get("01a212f7-1a50-70c6-b3c0-65a88d70941c"));
    refused(Refusal.NOT_FOUND, () -> get("not-an-id"));
    Recorded made = office.add(office.newCase(Clinic.person()), TestDay.meetingEverything(DAY));
    refused(Refusal.NOT_FOUND, () -> office.service.batteries().get("other-clinic", made.id()));
    refused(Refusal.NOT_FOUND, () -> get(made.id().toUpperCase(java.util.Locale.ROOT)));
  }

  @Test
  void batteriesOfACase_arePagedNewestFirst() {
    String caseId = office.newCase(Clinic.person());
    List<String> days = List.of("02", "04", "01", "05", "03");
    days.forEach(day -> office.add(caseId, TestDay.at("2026-10-" + day + "T10:00:00Z").tTest(10)));
    List<String> seen = new ArrayList<>();
    Optional<String> after = Optional.empty();
    do {
      Page page = office.service.batteries().list(Office.CLINIC, caseId, after, 2);
      page.items().forEach(item -> seen.add(at(item)));
      after = page.next();
    } while (after.isPresent());
    assertThat(seen).containsExactly("05", "04", "03", "02", "01");
  }

  private static String at(Document battery) {
    return Clinic.read(battery).at("/battery/performedAt").asString().substring(8, 10);
  }

  private static Recorded add(String caseId, TestDay day, Optional<IdempotencyKey> key) {
    return office.service.batteries().add(Office.CLINIC, caseId, day.json(), key);
  }

  private static Document get(String id) {
    return office.service.batteries().get(Office.CLINIC, id);
  }

  private static List<Document> list(String caseId) {
    return office.service.batteries().list(Office.CLINIC, caseId, Optional.empty(), 100).items();
  }

  private static JsonNode read(JsonNode tree) {
    return Clinic.read(Document.of(tree));
  }
}
