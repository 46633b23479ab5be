package evenside.readiness;

import static evenside.readiness.Office.refused;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.document.Document;
import evenside.example.Clinic;
import evenside.example.TestDay;
import evenside.readiness.recording.Refusal;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

class DeskTest {
  private static final String NOW = "2026-10-28T10:00:00+01:00";

  static List<String> sets() {
    return Clinic.sets();
  }

  /** The published sets themselves; no numbers of its own. */
  @ParameterizedTest
  @MethodSource("sets")
  void publishedSet_isServedUnderTheFingerprintThatDecisionsName(String name) {
    String[] parts = name.split("/", 2);
    Document served = Clinic.DESK.criteriaSet(parts[0], parts[1]);
    assertThat(Clinic.read(served)).isEqualTo(Clinic.read(Document.of(Clinic.set(name))));
    JsonNode used = Clinic.ask(name, TestDay.meetingEverything(NOW)).json().path("criteriaSet");
    assertThat(used.path("sha256").asString()).isEqualTo(served.sha256());
  }

  @Test
  void listOfSets_marksOneUsualSetForAMilestoneAtMost() {
    JsonNode sets = Clinic.read(Clinic.DESK.criteriaSets()).path("criteriaSets");
    assertThat(sets.size()).isEqualTo(Clinic.sets().size());
    List<String> usual =
        sets.valueStream()
            .filter(set -> set.path("usual").asBoolean())
            .map(set -> set.path("milestone").asString())
            .toList();
    assertThat(usual)
        .containsExactlyInAnyOrder(
            "start-running", "start-progression", "symmetry-checkpoint", "return-to-competition");
  }

  @Test
  void everyMeasure_isServedWithItsErrorsAndSources() {
    for (JsonNode measure : Clinic.read(Clinic.DESK.measures()).path("measures")) {
      JsonNode sheet = Clinic.read(Clinic.DESK.measure(measure.path("code").asString()));
      List<String> cited =
          sheet.path("citations").valueStream().map(c -> c.path("key").asString()).toList();
      for (JsonNode key : measure.path("sources")) {
        assertThat(cited).contains(key.asString());
      }
      for (JsonNode error : sheet.path("measurementErrors")) {
        assertThat(error.path("measure")).isEqualTo(measure.path("code"));
        assertThat(cited).contains(error.path("source").asString());
      }
    }
  }

  @Test
  void checkOfABattery_namesWarningsAndStoresNothing() {
    ObjectNode battery = TestDay.at(NOW).timedHop("left", 2.1).json();
    CheckReport report = Clinic.DESK.check("battery", battery);
    assertThat(report.valid()).isTrue();
    assertThat(report.warnings()).extracting("code").containsExactly("sides.not-compared");
    CheckReport faulty = Clinic.DESK.check("battery", battery.put("operatedSide", "both"));
    assertThat(faulty.valid()).isFalse();
    assertThat(faulty.faults()).extracting("code").containsExactly("value.not-allowed");
  }

  @Test
  void moreThanAHundredFaults_areCutAndSaidToBe() {
    ObjectNode battery = TestDay.at(NOW).tTest(10).json();
    for (int i = 0; i < 150; i++) {
      battery.put("surplus" + i, i);
    }
    CheckReport report = Clinic.DESK.check("battery", battery);
    assertThat(report.faults()).hasSize(100);
    assertThat(report.truncated()).isTrue();
    assertThat(report.toJson().path("truncated").asBoolean()).isTrue();
  }

  @Test
  void whatIsNotPublished_isNotFound() {
    refused(Refusal.NOT_FOUND, () -> Clinic.DESK.check("no-such-kind", Clinic.person()));
    refused(Refusal.NOT_FOUND, () -> Clinic.DESK.measure("long-jump"));
    refused(Refusal.NOT_FOUND, () -> Clinic.DESK.criteriaSet("delaware-oslo", "1999"));
  }

  @Test
  void severalSets_areComparedNumberByNumber() {
    ObjectNode request =
        Clinic.request(Clinic.person(), Clinic.sets(), TestDay.meetingEverything(NOW));
    JsonNode answer = Clinic.assess(request.put("asOf", Clinic.TODAY));
    assertThat(answer.path("recorded").asBoolean(true)).isFalse();
    assertThat(answer.path("decisions").size()).isEqualTo(Clinic.sets().size());
    long cells =
        answer.path("comparison").valueStream().mapToLong(row -> row.path("bySet").size()).sum();
    long criteria =
        Clinic.CONTRACT.criteriaSets().stream()
            .mapToLong(set -> set.at("/criteria/of").size() + set.path("informative").size())
            .sum();
    assertThat(cells).isEqualTo(criteria);
  }
}
