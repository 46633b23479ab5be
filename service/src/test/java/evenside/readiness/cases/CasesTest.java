package evenside.readiness.cases;

import static evenside.readiness.Office.refused;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.example.Clinic;
import evenside.example.TestDay;
import evenside.readiness.Office;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.schemas.StrictJson;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Optional;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

class CasesTest {
  private static final String RUN =
      """
      {"running": [{"surface": "track",
        "completed": {"runDistance": {"value": 1600, "unit": "m"}}}]}
      """;
  private static final String DAY = "2026-10-20T10:00:00+02:00";

  @AutoClose private static Office office;

  @BeforeAll
  static void open(@TempDir Path folder) {
    office = Office.in(folder);
  }

  @Test
  void newCase_isCreatedAndReadBackByteForByte() {
    Recorded made = office.put("new", Clinic.person());
    assertThat(made.novelty()).isEqualTo(Recorded.Novelty.CREATED);
    assertThat(get("new")).isEqualTo(made.document());
    JsonNode json = Clinic.read(made.document());
    assertThat(json.path("revision").asInt()).isEqualTo(1);
    assertThat(json.path("receivedAt").asString()).isEqualTo("2026-11-02T12:00:00Z");
    assertThat(json.path("case")).isEqualTo(Clinic.person());
  }

  @Test
  void sameContentAgain_changesNothing() {
    Recorded made = office.put("same", Clinic.person());
    JsonNode otherOrder = reversed(Clinic.person());
    Recorded again = office.put("same", otherOrder);
    assertThat(again.novelty()).isEqualTo(Recorded.Novelty.UNCHANGED);
    assertThat(again.document()).isEqualTo(made.document());
  }

  @Test
  void change_needsTheFingerprintOfWhatWasSeen() {
    String seen = office.put("change", Clinic.person()).document().sha256();
    ObjectNode changed = Clinic.person().put("graft", "allograft");
    refused(Refusal.PRECONDITION_REQUIRED, () -> office.put("change", changed));
    refused(Refusal.PRECONDITION_FAILED, () -> put("change", changed, "0".repeat(64)));
    Recorded made = put("change", changed, seen);
    assertThat(made.novelty()).isEqualTo(Recorded.Novelty.CHANGED);
    assertThat(Clinic.read(made.document()).path("revision").asInt()).isEqualTo(2);
    assertThat(get("change")).isEqualTo(made.document());
    ObjectNode later = Clinic.person().put("revision", true);
    refused(Refusal.PRECONDITION_FAILED, () -> put("change", later, seen));
  }

  @Test
  void fingerprintOfACaseThatIsNotThere_isRefused() {
    refused(Refusal.PRECONDITION_FAILED, () -> put("none", Clinic.person(), "0".repeat(64)));
    refused(Refusal.NOT_FOUND, () -> get("none"));
  }

  @Test
  void operatedSide_mayBeTurnedOnlyWhileThereAreNoBatteries() {
    ObjectNode right = Clinic.person().put("operatedSide", "right");
    String first = office.put("turned", Clinic.person()).document().sha256();
    String second = put("turned", right, first).document().sha256();
    String third = put("turned", Clinic.person(), second).document().sha256();
    office.add("turned", TestDay.meetingEverything(DAY));
    Refused refused = refused(Refusal.INVALID, () -> put("turned", right, third));
    assertThat(refused.faults()).hasSize(1);
    assertThat(refused.faults().get(0).pointer()).isEqualTo("#/operatedSide");
    assertThat(refused.faults().get(0).code()).isEqualTo("side.contradicts-batteries");
    assertThat(refused.faults().get(0).limit()).contains("left");
    assertThat(put("turned", Clinic.person().put("birthYear", 1991), third).novelty())
        .isEqualTo(Recorded.Novelty.CHANGED);
  }

  /** Every rule of the training record counts from the surgery, so no entry may lie before it. */
  @Test
  void surgery_isNotMovedBehindTheTrainingRecord() {
    String seen = office.put("moved", Clinic.person()).document().sha256();
    LocalDate surgery = LocalDate.parse(Clinic.person().path("surgeryDate").asString());
    String run = record(surgery.plusDays(30), "{\"training\": {\"work\": %s}}".formatted(RUN));
    String rest =
        record(
            surgery.plusDays(40),
            "{\"restDays\": [\"%s\", \"%s\"]}"
                .formatted(surgery.plusDays(39), surgery.plusDays(20)));

    Refused behindRest = moved(surgery.plusDays(21), seen);
    assertThat(behindRest.faults().get(0).pointer()).isEqualTo("#/surgeryDate");
    assertThat(behindRest.faults().get(0).code()).isEqualTo("date.before-surgery");
    assertThat(behindRest.faults().get(0).detail()).contains(rest, surgery.plusDays(20).toString());
    assertThat(behindRest.faults().get(0).limit())
        .contains("at the latest " + surgery.plusDays(20));
    assertThat(behindRest.faults().get(0).detail()).doesNotContain(run);
    String later = surgery.plusDays(20).toString();
    assertThat(put("moved", Clinic.person().put("surgeryDate", later), seen).novelty())
        .isEqualTo(Recorded.Novelty.CHANGED);
  }

  private static Refused moved(LocalDate surgery, String seen) {
    ObjectNode person = Clinic.person().put("surgeryDate", surgery.toString());
    return refused(Refusal.INVALID, () -> put("moved", person, seen));
  }

  private static String record(LocalDate day, String entry) {
    String json =
        """
        {"schemaVersion": "1.0", "performedAt": "%sT17:00:00+01:00", "operatedSide": "left",
         "entry": %s}
        """
            .formatted(day, entry);
    JsonNode read = StrictJson.read(json.getBytes(StandardCharsets.UTF_8), StrictJson.Limits.OWN);
    return office.service.sessions().add(Office.CLINIC, "moved", read, Optional.empty()).id();
  }

  @Test
  void faultyCase_isRefusedAndNotStored() {
    Refused refused =
        refused(
            Refusal.INVALID, () -> office.put("bad", Clinic.person().put("surgeryDate", "soon")));
    assertThat(refused.detail()).contains("nothing was stored");
    refused(Refusal.NOT_FOUND, () -> get("bad"));
    ObjectNode future = Clinic.person().put("schemaVersion", "1.7");
    refused(Refusal.UNSUPPORTED_VERSION, () -> office.put("bad", future));
  }

  @Test
  void caseOfAnotherClinic_isNotThere() {
    office.put("mine", Clinic.person());
    refused(Refusal.NOT_FOUND, () -> office.service.cases().get("other-clinic", "mine"));
  }

  private static evenside.document.Document get(String caseId) {
    return office.service.cases().get(Office.CLINIC, caseId);
  }

  private static Recorded put(String caseId, JsonNode person, String ifMatch) {
    return office.service.cases().put(Office.CLINIC, caseId, person, Optional.of(ifMatch));
  }

  private static JsonNode reversed(ObjectNode person) {
    ObjectNode reversed = person.objectNode();
    java.util.List<String> names = new java.util.ArrayList<>(person.propertyNames());
    java.util.Collections.reverse(names);
    names.forEach(name -> reversed.set(name, person.get(name)));
    return reversed;
  }
}
