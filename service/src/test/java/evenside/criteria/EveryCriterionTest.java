package evenside.criteria;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.example.Clinic;
import evenside.example.TestDay;
import evenside.example.Verdict;
import evenside.example.Worse;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;

/**
 * Laws that hold for every published set and every required criterion in it: missing is neither met
 * nor failed, one failure decides, and everything is shown whatever the outcome. The results are
 * invented to exercise the laws, which are the service’s own.
 */
class EveryCriterionTest {
  private static final String BEFORE_SURGERY = "2025-09-20T10:00:00+02:00";
  private static final String NOW = "2026-10-28T10:00:00+01:00";

  /** One required criterion of one published set. */
  record Asked(String set, JsonNode criterion) {
    String id() {
      return criterion.path("id").asString();
    }

    String title() {
      return criterion.path("title").asString();
    }

    String measure() {
      return criterion.path("measure").asString();
    }

    /** True if a result of a battery is what this criterion looks at. */
    boolean looksAt(JsonNode result) {
      JsonNode speed = criterion.path("protocol").path("speed").path("value");
      return TestDay.isOf(measure(), result)
          && (speed.isMissingNode()
              || speed.asDouble() == result.path("speed").path("value").asDouble());
    }

    @Override
    public String toString() {
      return set + " " + id();
    }
  }

  static Stream<String> sets() {
    return Clinic.sets().stream();
  }

  /** Every required criterion that a test answers; time since surgery has no test. */
  static Stream<Asked> criteria() {
    return Clinic.sets().stream().flatMap(name -> criteria(name).stream());
  }

  private static List<Asked> criteria(String set) {
    List<Asked> found = new ArrayList<>();
    for (JsonNode criterion : Clinic.set(set).path("criteria").path("of")) {
      assertThat(criterion.has("of")).as("published sets are flat lists").isFalse();
      if (criterion.has("measure")) {
        found.add(new Asked(set, criterion));
      }
    }
    return found;
  }

  @ParameterizedTest
  @MethodSource("sets")
  void everythingDone_meetsTheSet(String set) {
    Verdict verdict = ask(set, TestDay.meetingEverything(NOW));
    assertThat(verdict.outcome()).as(verdict.json().toPrettyString()).isEqualTo("met");
    assertThat(verdict.notMet()).isEmpty();
    assertThat(verdict.undetermined()).isEmpty();
  }

  @ParameterizedTest
  @MethodSource("criteria")
  void missingTest_makesTheSetUndeterminedAndIsNamed(Asked asked) {
    Verdict verdict = ask(asked.set(), TestDay.meetingEverything(NOW).without(asked::looksAt));
    assertThat(verdict.outcome()).isEqualTo("undetermined");
    assertThat(verdict.notMet()).isEmpty();
    assertThat(new TreeSet<>(verdict.undetermined()))
        .contains(asked.id())
        .isSubsetOf(sameMeasure(asked));
    assertThat(verdict.json().path("summary").asString()).contains(asked.title());
    assertThat(verdict.leaf(asked.id()).has("value")).isFalse();
  }

  @ParameterizedTest
  @MethodSource("criteria")
  void failedTest_makesTheSetNotMetAndIsNamed(Asked asked) {
    Verdict verdict = ask(asked.set(), Worse.at(asked.measure(), TestDay.meetingEverything(NOW)));
    assertThat(verdict.outcome()).isEqualTo("not-met");
    assertThat(new TreeSet<>(verdict.notMet())).isEqualTo(sameMeasure(asked));
    assertThat(verdict.undetermined()).isEmpty();
    assertThat(verdict.leaf(asked.id()).path("toMeet").path("text").asString()).isNotEmpty();
  }

  @ParameterizedTest
  @MethodSource("criteria")
  void missingTestBesideAFailedOne_leavesTheSetNotMet(Asked asked) {
    Asked failing =
        criteria(asked.set()).stream()
            .filter(other -> !other.measure().equals(asked.measure()))
            .findFirst()
            .orElseThrow();
    TestDay day = TestDay.meetingEverything(NOW).without(asked::looksAt);
    Verdict verdict = ask(asked.set(), Worse.at(failing.measure(), day));
    assertThat(verdict.outcome()).isEqualTo("not-met");
    assertThat(verdict.undetermined()).contains(asked.id());
    assertThat(verdict.notMet()).contains(failing.id());
  }

  @ParameterizedTest
  @MethodSource("criteria")
  void everyCriterionIsShown_whateverTheOutcome(Asked asked) {
    List<String> all = ids(Clinic.set(asked.set()));
    TestDay met = TestDay.meetingEverything(NOW);
    TestDay missing = TestDay.meetingEverything(NOW).without(asked::looksAt);
    TestDay failed = Worse.at(asked.measure(), TestDay.meetingEverything(NOW));
    for (TestDay day : List.of(met, missing, failed)) {
      Verdict verdict = ask(asked.set(), day);
      assertThat(verdict.leaves().stream().map(leaf -> leaf.path("id").asString()).toList())
          .isEqualTo(all);
      assertThat(verdict.leaves())
          .allSatisfy(
              leaf -> assertThat(leaf.path("citation").path("text").asString()).isNotEmpty());
    }
  }

  private static Verdict ask(String set, TestDay day) {
    return Clinic.ask(set, TestDay.meetingEverything(BEFORE_SURGERY), day);
  }

  private static Set<String> sameMeasure(Asked asked) {
    Set<String> ids = new TreeSet<>();
    criteria(asked.set()).stream()
        .filter(other -> other.measure().equals(asked.measure()))
        .forEach(other -> ids.add(other.id()));
    return ids;
  }

  private static List<String> ids(JsonNode set) {
    return Stream.concat(
            set.path("criteria").path("of").valueStream(), set.path("informative").valueStream())
        .map(one -> one.path("id").asString())
        .toList();
  }
}
