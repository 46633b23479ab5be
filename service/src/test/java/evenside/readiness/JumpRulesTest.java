package evenside.readiness;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.schemas.Fault;
import java.util.List;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.node.ObjectNode;

class JumpRulesTest {
  private static final String JUMP = "/results/jumpHeight/0";

  @Test
  void height_besideItsFlightTime() {
    assertThat(faults(JUMP + "/trials/0", trial -> trial.put("value", 14.3)))
        .containsExactly("#" + JUMP + "/trials/0/value value.given-twice");
  }

  @Test
  void flightTime_underAnotherMethod() {
    assertThat(faults(JUMP, jump -> jump.put("method", "impulse")))
        .contains("#" + JUMP + "/method method.contradicts-value");
  }

  /** 9.81 × 1² / 8 is 122.6 cm. */
  @Test
  void flightTime_ofAWholeSecond() {
    assertThat(faults(JUMP + "/trials/1/flightTime", time -> time.put("value", 1)))
        .containsExactly("#" + JUMP + "/trials/1/flightTime/value value.implausible");
  }

  /**
   * An attempt that does not count is kept as it was seen: a sensor may have failed. Own choice.
   */
  @Test
  void attemptThatDoesNotCount_isNotHeldToThePlausibleRange() {
    ObjectNode battery = Documents.everyMeasure();
    ObjectNode jump = (ObjectNode) battery.at(JUMP + "/trials/1");
    jump.put("invalidReason", "other").putObject("flightTime").put("value", 1).put("unit", "s");
    ObjectNode hop = (ObjectNode) battery.at("/results/hopDistance/0");
    hop.withArray("trials").addObject().put("value", 800).put("invalidReason", "extra-hop");
    assertThat(said(Documents.DESK.check("battery", battery).faults())).isEmpty();
  }

  /** More than a quarter of the hops (Gustavsson 2006, read second-hand). */
  @Test
  void sideHops_withManyErrors_callForASecondAttempt() {
    ObjectNode battery = Documents.everyMeasure();
    ((ObjectNode) battery.at("/results/hopCount/0/trials/0")).put("value", 30).put("errors", 11);
    assertThat(warnings(battery))
        .contains("#/results/hopCount/0/trials/0/errors attempt.many-errors");
    ((ObjectNode) battery.at("/results/hopCount/0/trials/0")).put("errors", 10);
    assertThat(warnings(battery)).noneMatch(warning -> warning.endsWith("attempt.many-errors"));
  }

  private static List<String> faults(String place, Consumer<ObjectNode> change) {
    ObjectNode battery = Documents.everyMeasure();
    change.accept((ObjectNode) battery.at(place));
    return said(Documents.DESK.check("battery", battery).faults());
  }

  private static List<String> warnings(ObjectNode battery) {
    return said(Documents.DESK.check("battery", battery).warnings());
  }

  private static List<String> said(List<Fault> faults) {
    return faults.stream().map(fault -> fault.pointer() + " " + fault.code()).toList();
  }
}
