package evenside.store;

import static evenside.store.Samples.NOON;
import static java.time.temporal.ChronoUnit.DAYS;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.store.database.StoreSettings;
import evenside.store.evidence.EvidenceQuery;
import evenside.store.evidence.EvidenceRow;
import evenside.store.evidence.FiledNumber;
import evenside.store.ledger.LedgerEntryRow;
import evenside.store.ledger.LedgerRow;
import java.nio.file.Path;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jdbi.v3.core.statement.SqlLogger;
import org.jdbi.v3.core.statement.StatementContext;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * What a decision, a page or a proof looks up among many rows reads about as many as it answers
 * with, as H2 counts them. An index in the right order is not enough for that: where a statement
 * bounds a falling column twice from one side, H2 starts at the looser of both bounds.
 */
class RowsReadTest {
  private static final int ROWS = 400;
  private static final int PAGE = 10;
  private static final String CLINIC = "c";
  private static final String CASE = "k";
  private static final String CLINICIAN = "dr-rare";
  private static final String STRENGTH = "knee-extension-peak-torque";
  private static final Pattern SCANNED = Pattern.compile("scanCount: (\\d+)");

  private static Store store;

  @BeforeAll
  static void fill(@TempDir Path folder) {
    store = Store.open(StoreSettings.inFolder(folder));
    store.<Boolean>write(
        writing -> {
          writing.ledger().start(new LedgerRow(CLINIC, 1, "ledger", NOON));
          for (int i = 0; i < ROWS; i++) {
            writing
                .ledger()
                .append(
                    CLINIC,
                    1,
                    List.of(
                        new LedgerEntryRow(
                            i, new byte[138], new byte[32], Samples.newId(), Optional.empty())));
            writing.insertBattery(
                Samples.battery(CLINIC, CASE, day(i)),
                List.of(
                    row("symmetry", 60.0), row("operated", 60.0), EvidenceRow.of("pain", "value")));
            StoredSession session =
                Samples.session(CLINIC, CASE, day(i), Optional.empty(), i % 2 == 0);
            writing.insertSession(session, Samples.content(session));
            StoredDecision decision = Samples.decision(CLINIC, CASE, day(i));
            writing.insertDecision(decision);
            if (i % 100 == 0) {
              writing.audit().insertDetermination(determination(decision));
            }
          }
          return true;
        });
  }

  private static StoredDetermination determination(StoredDecision decision) {
    return new StoredDetermination(
        CLINIC,
        Samples.newId(),
        decision.id(),
        CASE,
        "cleared",
        CLINICIAN,
        true,
        NOON,
        Samples.bytes("{}"));
  }

  private static EvidenceRow row(String aspect, double speed) {
    return new EvidenceRow(
        STRENGTH,
        aspect,
        Optional.of("isokinetic-concentric"),
        Optional.of(speed),
        Optional.empty(),
        Optional.empty(),
        Optional.of(new FiledNumber(90, "%", "{}", LocalDate.parse("2026-03-02"))));
  }

  @AfterAll
  static void close() {
    store.close();
  }

  private static Instant day(int n) {
    return NOON.plus(n, DAYS);
  }

  static Stream<Arguments> questions() {
    Instant middle = day(ROWS / 2);
    Optional<Position> after = Optional.of(new Position(middle, Samples.newId()));
    return Stream.of(
        question("newest evidence", r -> r.evidence(CLINIC, CASE).newest(symmetry(day(ROWS)))),
        question("older evidence", r -> r.evidence(CLINIC, CASE).newest(symmetry(middle))),
        question("evidence of one time", r -> r.evidence(CLINIC, CASE).at(middle)),
        question("measures", r -> r.evidence(CLINIC, CASE).filed(List.of(STRENGTH, "pain"))),
        question("entries", r -> r.ledger().entriesAt(CLINIC, 1, List.of(3L, 7L, 15L, 300L))),
        question("newest entry", r -> r.ledger().last(CLINIC, 1)),
        question("series", r -> r.evidence(CLINIC, CASE).series(STRENGTH, middle, PAGE)),
        question("newest battery", r -> r.newestBattery(CLINIC, CASE, middle)),
        question("battery count", r -> r.countBatteries(CLINIC, CASE, day(ROWS / 2 - 8), middle)),
        question("batteries", r -> r.batteries(CLINIC, CASE, after, PAGE)),
        question("sessions", r -> r.sessions(CLINIC).page(CASE, after, PAGE)),
        question("newest session", r -> r.sessions(CLINIC).newest(CASE, middle)),
        question(
            "sessions of a span",
            r -> r.sessions(CLINIC).between(CASE, day(ROWS / 2 - 8), middle, ROWS)),
        question("flagged sessions", r -> r.sessions(CLINIC).flagged(CASE, middle, PAGE)),
        question("decisions", r -> r.decisions(CLINIC, DecisionFilter.ALL, after, PAGE)),
        question("decisions of a span", r -> r.decisions(CLINIC, span(ROWS), after, PAGE)),
        question("decisions before", r -> r.decisions(CLINIC, span(90), Optional.empty(), PAGE)),
        question("a clinician's", r -> r.decisions(CLINIC, rare(), Optional.empty(), PAGE)));
  }

  private static Arguments question(String name, Consumer<Reading> question) {
    return Arguments.of(name, question);
  }

  private static EvidenceQuery symmetry(Instant notAfter) {
    return new EvidenceQuery(
        STRENGTH,
        "symmetry",
        List.of("isokinetic-concentric"),
        Optional.of(60.0),
        Optional.empty(),
        Optional.empty(),
        notAfter,
        Optional.of(day(0)));
  }

  private static DecisionFilter rare() {
    return DecisionFilter.ALL.about(Optional.empty(), Optional.of(CLINICIAN), Optional.empty());
  }

  private static DecisionFilter span(int end) {
    return new DecisionFilter(
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.of(day(1)),
        Optional.of(day(end)));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("questions")
  void question_readsNoMoreThanItAnswersWith(String name, Consumer<Reading> question) {
    List<Integer> scanned = store.read(reading -> scanned(reading, question));

    assertThat(scanned).isNotEmpty().allSatisfy(rows -> assertThat(rows).isBetween(1, 2 * PAGE));
  }

  /** Asks the question, then lets H2 count the rows of each table that its statements read. */
  private static List<Integer> scanned(Reading reading, Consumer<Reading> question) {
    List<String> plans = new ArrayList<>();
    reading.handle.setSqlLogger(
        new SqlLogger() {
          @Override
          public void logAfterExecution(StatementContext context) {
            plans.add(plan(context));
          }
        });
    question.accept(reading);
    List<Integer> counts = new ArrayList<>();
    Matcher matcher = SCANNED.matcher(String.join("\n", plans));
    while (matcher.find()) {
      counts.add(Integer.valueOf(matcher.group(1)));
    }
    return counts;
  }

  @SuppressWarnings("removal") // JDBI has no other way yet to what was bound to a name.
  private static String plan(StatementContext context) {
    String sql = "explain analyze " + context.getParsedSql().getSql();
    List<String> names = context.getParsedSql().getParameters().getParameterNames();
    try (PreparedStatement explain = context.getConnection().prepareStatement(sql)) {
      for (int i = 0; i < names.size(); i++) {
        context
            .getBinding()
            .findForName(names.get(i), context)
            .orElseThrow()
            .apply(i + 1, explain, context);
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
