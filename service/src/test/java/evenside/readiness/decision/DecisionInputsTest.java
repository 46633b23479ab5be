package evenside.readiness.decision;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.assessment.AssessedBattery;
import evenside.decision.Decision;
import evenside.decision.RepeatLooks;
import evenside.document.DecisionDocument;
import evenside.document.Document;
import evenside.example.Clinic;
import evenside.example.History;
import evenside.example.TestDay;
import evenside.intake.CaseReader;
import evenside.knee.KneeCase;
import evenside.readiness.Office;
import evenside.readiness.cases.BatteryRecord;
import evenside.readiness.cases.BatteryRecord.Loaded;
import evenside.readiness.computing.Published;
import evenside.readiness.computing.Scoring;
import evenside.store.StoredBattery;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * The few batteries that a decision loads give what all of them would: every finding, every reason
 * and every caution, whatever the history.
 */
class DecisionInputsTest {
  private static final LocalDate SURGERY = LocalDate.parse(Clinic.SURGERY);
  private static final LocalDate LAST = LocalDate.parse("2026-10-30");

  private static final Published PUBLISHED = new Published(Clinic.CONTRACT);
  private static final Scoring SCORING = new Scoring(PUBLISHED);

  @AutoClose private static Office office;

  @BeforeAll
  static void open(@TempDir Path folder) {
    office = Office.in(folder);
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void anyHistory_isDecidedAsIfOnAllBatteries(long seed) {
    ObjectNode person = Clinic.person();
    String caseId = office.newCase(person);
    for (TestDay day : new History(seed).batteries(30, SURGERY, LAST)) {
      office.add(caseId, day);
    }
    for (LocalDate asOf : dates()) {
      for (String set : Clinic.sets()) {
        JsonNode decided = office.decide(caseId, set, asOf.toString());
        JsonNode expected = onAll(caseId, set, asOf);
        for (String member : expected.propertyNames()) {
          assertThat(decided.path(member))
              .as("%s of %s as of %s", member, set, asOf)
              .isEqualTo(expected.path(member));
        }
      }
    }
  }

  /** The days around which the batteries crowd, the surgery, and some in between. */
  private static List<LocalDate> dates() {
    List<LocalDate> dates = new ArrayList<>(List.of(SURGERY, SURGERY.plusDays(1)));
    for (int back = 0; back < 5; back++) {
      dates.add(LAST.minusDays(back));
    }
    long span = ChronoUnit.DAYS.between(SURGERY, LAST);
    dates.add(SURGERY.plusDays(span / 3));
    dates.add(SURGERY.plusDays(2 * span / 3));
    return dates;
  }

  @Test
  void decision_listsNoBatteryOfALaterDay() {
    String caseId = office.newCase(Clinic.person());
    office.add(caseId, TestDay.meetingEverything("2026-10-20T10:00:00+02:00"));
    office.add(caseId, TestDay.meetingEverything("2026-10-21T00:10:00+14:00"));
    JsonNode decided = office.decide(caseId, "delaware-oslo/2020.1", "2026-10-20");
    assertThat(decided.path("batteries").size()).isEqualTo(1);
    assertThat(decided.at("/batteries/0/ageDays").asInt()).isZero();
    assertThat(inputs(decided).path("batteries").size()).isEqualTo(1);
  }

  @Test
  void longHistory_isDecidedOnFewBatteries() {
    String caseId = office.newCase(Clinic.person());
    for (int day = 1; day <= 28; day++) {
      office.add(caseId, TestDay.meetingEverything("2026-09-%02dT10:00:00+02:00".formatted(day)));
    }
    JsonNode decided = office.decide(caseId, "delaware-oslo/2020.1", Clinic.TODAY);
    assertThat(decided.path("batteries").size()).isEqualTo(1);
  }

  private static JsonNode onAll(String caseId, String set, LocalDate asOf) {
    KneeCase kneeCase = CaseReader.read(Clinic.person());
    List<StoredBattery> all =
        office.store.read(
            reading -> reading.batteries(Office.CLINIC, caseId, Optional.empty(), 100));
    List<AssessedBattery> assessed =
        all.stream()
            .sorted(
                Comparator.comparing(StoredBattery::performedAt).thenComparing(StoredBattery::id))
            .map(BatteryRecord::load)
            .map(battery -> assess(battery, kneeCase))
            .toList();
    Decision decision =
        SCORING.decide(
            PUBLISHED.set(set).orElseThrow(),
            kneeCase,
            assessed,
            List.of(),
            asOf,
            null,
            looks(assessed, asOf));
    return Clinic.read(Document.written(json -> DecisionDocument.judgement(json, decision)));
  }

  private static RepeatLooks looks(List<AssessedBattery> all, LocalDate asOf) {
    return RepeatLooks.among(
        all.stream().map(assessed -> assessed.battery().performedAt()).toList(), asOf);
  }

  private static AssessedBattery assess(Loaded battery, KneeCase kneeCase) {
    String id = battery.stored().id().toString();
    return SCORING.battery(id, battery.content(), kneeCase.operatedSide());
  }

  private static JsonNode inputs(JsonNode decided) {
    java.util.UUID id = java.util.UUID.fromString(decided.path("decisionId").asString());
    byte[] inputs =
        office.store.read(reading -> reading.decision(Office.CLINIC, id)).orElseThrow().inputs();
    return Clinic.read(Document.ofCanonical(inputs));
  }
}
