package evenside.readiness.recovery;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.readiness.Rehab;
import evenside.readiness.Tests;
import java.nio.file.Path;
import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** When a test is worth repeating, where its error is a share of the value. */
class RetestTest {
  private static final LocalDate SURGERY = LocalDate.parse("2026-02-17");
  private static final String CRITERION = "knee-extension-per-mass-60";

  /** A published set that asks for torque per body mass as a must, which it only shows. */
  private static ObjectNode ownSet() {
    ObjectNode set =
        (ObjectNode)
            Rehab.CONTRACT.criteriaSets().stream()
                .filter(json -> json.path("id").asString().equals("gokeler-welling"))
                .findFirst()
                .orElseThrow();
    set.put("id", "own-torque");
    JsonNode shown = ((ArrayNode) set.remove("informative")).get(0);
    set.withArray("/criteria/of").removeAll().add(shown);
    return set;
  }

  /** A share of nothing is nothing, which is no error: no day follows from it. */
  @Test
  void retest_afterAZero_namesNoDayByAnErrorInPercent(@TempDir Path folder) {
    try (Rehab rehab = Rehab.in(folder)) {
      rehab.service.criteriaSets().publish(Rehab.CLINIC, ownSet());
      JsonNode stopped = retest(rehab, "zero", 60, 30, 0);
      assertThat(stopped.has("beyondError")).isFalse();
      assertThat(stopped.path("basis").asString()).contains("the last value is zero");
      JsonNode weak = retest(rehab, "weak", 60, 80, 100);
      assertThat(weak.path("beyondError").asString()).isNotEmpty();
      assertThat(weak.path("basis").asString()).contains("is within measurement error");
    }
  }

  /** What a plan says of repeating the test after weeks 12, 16 and 20. */
  private static JsonNode retest(Rehab rehab, String person, int... torques) {
    String caseId = rehab.put(person, Rehab.person(SURGERY));
    for (int i = 0; i < torques.length; i++) {
      LocalDate day = SURGERY.plusWeeks(12 + 4L * i);
      rehab.test(
          caseId, Tests.on(day).torque("knee-extension-peak-torque", torques[i], 200).bodyMass(70));
    }
    JsonNode plan = rehab.plan(caseId, "own-torque/2018.1", SURGERY.plusWeeks(20));
    JsonNode item = plan.path("items").path(0);
    assertThat(item.at("/finding/id").asString()).isEqualTo(CRITERION);
    return item.path("retest");
  }
}
