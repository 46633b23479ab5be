package evenside.store;

import static evenside.store.Samples.NOON;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.store.cohort.CohortFilter;
import evenside.store.evidence.EvidenceQuery;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.jdbi.v3.core.statement.SqlLogger;
import org.jdbi.v3.core.statement.StatementContext;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Every list comes out of an index in its order. So a page costs the same among ten rows and among
 * a million: the database reads the page and no more, and sorts nothing.
 */
class QueryPlanTest {
  private static final Optional<Position> AFTER = Optional.of(new Position(NOON, Samples.newId()));

  @RegisterExtension static final OpenStore OPEN = OpenStore.onH2();

  static Stream<Arguments> lists() {
    return Stream.of(
        list("PRIMARY_KEY", r -> r.latestCase("c", "k")),
        list("battery_of_case", r -> r.batteries("c", "k", Optional.empty(), 50)),
        list("battery_of_case", r -> r.batteries("c", "k", AFTER, 50)),
        list("battery_of_case", r -> r.newestBattery("c", "k", NOON)),
        list(
            "evidence_newest",
            r -> r.evidence("c", "k").newest(EvidenceQuery.of("body-mass", "value", NOON))),
        list("evidence_newest", r -> r.evidence("c", "k").series("body-mass", NOON, 400)),
        list("plan_of_case", r -> r.plans("c").ofCase("k", Optional.empty(), 50)),
        list("plan_of_case", r -> r.plans("c").ofCase("k", AFTER, 50)),
        list("training_session_of_case", r -> r.sessions("c").page("k", Optional.empty(), 50)),
        list("training_session_of_case", r -> r.sessions("c").page("k", AFTER, 50)),
        list("training_session_of_case", r -> r.sessions("c").between("k", NOON, NOON, 50)),
        list("training_session_flagged", r -> r.sessions("c").flagged("k", NOON, 50)),
        list("decision_newest", r -> r.decisions("c", DecisionFilter.ALL, Optional.empty(), 50)),
        list("decision_newest", r -> r.decisions("c", DecisionFilter.ALL, AFTER, 50)),
        list("decision_of_case", r -> r.decisions("c", filter("k", null, null, null), AFTER, 50)),
        list("decision_of_case", r -> r.decisions("c", filter("k", "s", "m", "o"), AFTER, 50)),
        list("decision_by_set", r -> r.decisions("c", filter(null, "s", null, null), AFTER, 50)),
        list(
            "decision_by_milestone",
            r -> r.decisions("c", filter(null, null, "m", null), AFTER, 50)),
        list(
            "decision_by_outcome",
            r -> r.decisions("c", filter(null, null, null, "o"), AFTER, 50)));
  }

  private static Arguments list(String index, Consumer<Reading> question) {
    return Arguments.of(index, question);
  }

  private static DecisionFilter filter(
      String caseId, String set, String milestone, String outcome) {
    return new DecisionFilter(
        Optional.ofNullable(caseId),
        Optional.ofNullable(milestone),
        Optional.ofNullable(set),
        Optional.empty(),
        Optional.ofNullable(outcome),
        Optional.of(NOON),
        Optional.empty());
  }

  @ParameterizedTest
  @MethodSource("lists")
  void list_comesFromAnIndexInOrder(String index, Consumer<Reading> question) {
    String plan = OPEN.store().read(reading -> plan(reading, question));

    assertThat(plan).contains("public." + index).contains("index sorted");
  }

  /** What one day's batteries are evidence for is found by the batteries, not by the case. */
  @Test
  void evidenceOfOneTime_isFoundByItsBatteries() {
    String plan = OPEN.store().read(r -> plan(r, q -> q.evidence("c", "k").at(NOON)));

    assertThat(plan).contains("public.battery_of_case").contains("public.evidence_of_battery");
    assertThat(plan).doesNotContain("tablescan").doesNotContain("evidence_newest");
  }

  @Test
  void measuresThatAreFiled_areOneLookIntoTheIndexEach() {
    String plan =
        OPEN.store().read(r -> plan(r, q -> q.evidence("c", "k").filed(List.of("a", "b"))));

    assertThat(plan).contains("public.evidence_newest").doesNotContain("tablescan");
  }

  /**
   * Each case's decision comes from one index that holds all that is asked, so counting people
   * reads no decision and its cost grows with the people, not with their decisions.
   */
  @Test
  void cohort_looksUpEachCaseInAnIndex() {
    CohortFilter.Decided decided =
        new CohortFilter.Decided(
            "s", "1", LocalDate.parse("2026-01-01"), LocalDate.parse("2026-12-31"));
    String findings =
        OPEN.store()
            .read(r -> plan(r, q -> q.cohort("c", CohortFilter.EVERYBODY).findings(decided)));
    assertThat(findings).contains("public.decision_newest_by_set").contains("index sorted");

    String courses =
        OPEN.store().read(r -> plan(r, q -> q.cohort("c", CohortFilter.EVERYBODY).courses("m")));
    assertThat(courses)
        .contains("public.decision_first_of_milestone")
        .contains("public.battery_of_case")
        .contains("index sorted");
  }

  /** Asks the question, then asks H2 how it answers the statement that this made. */
  private static String plan(Reading reading, Consumer<Reading> question) {
    List<String> statements = new ArrayList<>();
    reading.handle.setSqlLogger(
        new SqlLogger() {
          @Override
          public void logAfterExecution(StatementContext context) {
            statements.add(context.getParsedSql().getSql());
          }
        });
    question.accept(reading);
    assertThat(statements).hasSize(1);
    try (PreparedStatement explain =
        reading.handle.getConnection().prepareStatement("explain " + statements.get(0))) {
      // The plan is made before the values are known, but H2 wants some.
      for (int i = 1; i <= explain.getParameterMetaData().getParameterCount(); i++) {
        explain.setNull(i, Types.NULL);
      }
      try (ResultSet plan = explain.executeQuery()) {
        plan.next();
        return plan.getString(1);
      }
    } catch (SQLException e) {
      throw new AssertionError(e);
    }
  }
}
