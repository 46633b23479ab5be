package evenside.api.page.decision;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.json.JsonMapper;

class NextStepsTest {
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "not-tested            | %       | Test it; at least 90 % is asked for.",
        "not-tested            | {score} | Ask the person for it; at least 90 is asked for.",
        "too-old               | {score} | Ask the person for it again; at least 90 is asked for.",
        "other-side-not-tested | %       | Test both sides on one day; at least 90 % is asked for.",
      })
  void step_forWhatIsOpen_saysWhatToDo(String reason, String unit, String step) {
    String decision =
        """
        {"outcome": "undetermined", "cautions": [], "finding": {"title": "It", "outcome":
          "undetermined", "reason": {"code": "%s", "text": "x"},
          "bound": {"comparator": ">=", "value": 90, "unit": "%s"}}}
        """
            .formatted(reason, unit);
    assertThat(NextSteps.of(JsonMapper.shared().readTree(decision), List.of()).get(0).what())
        .isEqualTo(step.replace("90 %", "90\u00a0%"));
  }

  @ParameterizedTest
  @CsvSource({"other-knee-not-sound", "graft-from-other-leg"})
  void numberThatWouldLeaveItOpen_isNotPromisedToMeetIt(String leftOpenBy) {
    String decision =
        """
        {"outcome": "not-met", "cautions": [], "finding": {"title": "It", "outcome": "not-met",
          "toMeet": {"leftOpenBy": "%s", "text": "x",
            "operated": {"comparator": ">=", "value": 180, "unit": "N.m"}}}}
        """
            .formatted(leftOpenBy);
    assertThat(NextSteps.of(JsonMapper.shared().readTree(decision), List.of()).get(0).what())
        .startsWith("Operated leg: at least 180")
        .contains(". With that it is undetermined. Repeating the test will not settle it");
  }
}
