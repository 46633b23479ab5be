package evenside.store;

import static evenside.store.Samples.NOON;
import static evenside.store.Samples.battery;
import static evenside.store.Samples.decision;
import static evenside.store.Samples.newClinic;
import static java.time.temporal.ChronoUnit.DAYS;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.store.evidence.EvidenceRow;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/**
 * What holds for lists of records and searches among them in every database. Each test has a clinic
 * of its own.
 */
abstract class SearchContract {
  private final String clinic = newClinic();

  abstract Store store();

  private <T> List<T> list(Function<Reading, List<T>> question) {
    return store().read(question);
  }

  private int count(Function<Reading, Integer> question) {
    return store().read(question);
  }

  private UUID add(Instant performedAt, EvidenceRow... evidence) {
    StoredBattery battery = battery(clinic, "k-1", performedAt);
    return store()
        .write(
            w -> {
              w.insertBattery(battery, List.of(evidence));
              return battery.id();
            });
  }

  private UUID decide(String caseId, String milestone, String outcome, Instant decidedAt) {
    StoredDecision decision = decision(clinic, caseId, milestone, outcome, decidedAt);
    return store()
        .write(
            w -> {
              w.insertDecision(decision);
              return decision.id();
            });
  }

  private static Instant day(int n) {
    return NOON.plus(n, DAYS);
  }

  @Test
  void batteries_arePagedNewestFirst_withoutSkipOrRepeatWhileRowsArrive() {
    List<UUID> expected = new ArrayList<>();
    for (int i = 0; i < 10; i++) {
      // Pairs of equal times, so that pages end inside a pair.
      expected.add(0, add(day(i / 2)));
    }
    List<UUID> seen = new ArrayList<>();
    Optional<Position> after = Optional.empty();
    do {
      Optional<Position> from = after;
      List<StoredBattery> page = store().read(r -> r.batteries(clinic, "k-1", from, 3));
      page.forEach(battery -> seen.add(battery.id()));
      after = page.isEmpty() ? Optional.empty() : Optional.of(last(page).position());
      add(day(100));
    } while (after.isPresent());

    assertThat(seen).isEqualTo(expected);
  }

  @Test
  void decisions_arePagedNewestFirst_withoutSkipOrRepeatWhileRowsArrive() {
    List<UUID> expected = new ArrayList<>();
    for (int i = 0; i < 10; i++) {
      expected.add(0, decide("k-1", "start-running", "met", day(i / 2)));
    }
    List<UUID> seen = new ArrayList<>();
    Optional<Position> after = Optional.empty();
    do {
      Optional<Position> from = after;
      List<StoredDecision> page =
          store().read(r -> r.decisions(clinic, DecisionFilter.ofCase("k-1"), from, 3));
      page.forEach(decision -> seen.add(decision.id()));
      after = page.isEmpty() ? Optional.empty() : Optional.of(last(page).position());
      decide("k-1", "start-running", "met", day(100));
    } while (after.isPresent());

    assertThat(seen).isEqualTo(expected);
  }

  private static <T> T last(List<T> list) {
    return list.get(list.size() - 1);
  }

  @Test
  void page_ofNothing_isRefused() {
    assertThatThrownBy(() -> store().read(r -> r.batteries(clinic, "k-1", Optional.empty(), 0)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("limit must be at least 1, got 0");
  }

  @Test
  void newestBattery_isTheLastNotAfter() {
    UUID first = add(day(1));
    UUID second = add(day(2));

    assertThat(newestBattery(day(3))).contains(second);
    assertThat(newestBattery(day(2))).contains(second);
    assertThat(newestBattery(day(2).minusNanos(1000))).contains(first);
    assertThat(newestBattery(day(0))).isEmpty();
  }

  private Optional<UUID> newestBattery(Instant notAfter) {
    return store().read(r -> r.newestBattery(clinic, "k-1", notAfter)).map(StoredBattery::id);
  }

  @Test
  void countBatteries_countsBothEnds() {
    add(day(1));
    add(day(2));
    add(day(3));

    assertThat(count(r -> r.countBatteries(clinic, "k-1", day(1), day(2)))).isEqualTo(2);
  }

  @Test
  void decisions_areFilteredByEachMember() {
    UUID a = decide("k-1", "start-running", "met", day(1));
    UUID b = decide("k-1", "return-to-competition", "not-met", day(2));
    UUID c = decide("k-2", "return-to-competition", "undetermined", day(3));

    assertThat(found(DecisionFilter.ALL)).containsExactly(c, b, a);
    assertThat(found(DecisionFilter.ofCase("k-1"))).containsExactly(b, a);
    assertThat(found(filter("milestone", "return-to-competition"))).containsExactly(c, b);
    assertThat(found(filter("criteriaSet", "set-of-start-running"))).containsExactly(a);
    assertThat(found(filter("criteriaVersion", "1.0"))).containsExactly(c, b, a);
    assertThat(found(filter("criteriaVersion", "2.0"))).isEmpty();
    assertThat(found(filter("outcome", "undetermined"))).containsExactly(c);
    assertThat(found(decidedIn(day(1), day(3)))).containsExactly(b, a);
    assertThat(found(decidedIn(day(2), day(4)))).containsExactly(c, b);
  }

  @Test
  void decisions_areFilteredByAllMembersAtOnce() {
    UUID wanted = decide("k-1", "start-running", "met", day(2));
    decide("k-1", "start-running", "not-met", day(2));
    decide("k-1", "start-training", "met", day(2));
    decide("k-2", "start-running", "met", day(2));
    decide("k-1", "start-running", "met", day(9));

    assertThat(
            found(
                new DecisionFilter(
                    Optional.of("k-1"),
                    Optional.of("start-running"),
                    Optional.of("set-of-start-running"),
                    Optional.of("1.0"),
                    Optional.of("met"),
                    Optional.of(day(1)),
                    Optional.of(day(3)))))
        .containsExactly(wanted);
  }

  @Test
  void decisions_areFilteredByWhatOneDeterminationSays() {
    UUID a = decide("k-1", "start-running", "met", day(1));
    UUID b = decide("k-2", "start-training", "met", day(2));
    UUID c = decide("k-3", "start-running", "met", day(3));
    determine(1, a, "dr-rare", true);
    determine(1, b, "dr-rare", false);
    determine(1, b, "dr-other", true);
    determine(1, c, "dr-other", false);

    assertThat(found(determined("dr-rare", null))).containsExactly(b, a);
    assertThat(found(determined("dr-rare", true))).containsExactly(a);
    assertThat(found(determined(null, true))).containsExactly(b, a);
    assertThat(found(determined("dr-nobody", null))).isEmpty();
    assertThat(
            found(
                filter("milestone", "start-training")
                    .about(Optional.empty(), Optional.of("dr-rare"), Optional.empty())))
        .containsExactly(b);
    Position afterB = new Position(day(2), b);
    assertThat(
            store()
                .read(r -> r.decisions(clinic, determined("dr-rare", null), Optional.of(afterB), 9))
                .stream()
                .map(StoredDecision::id))
        .containsExactly(a);
  }

  /** More than are looked up one by one, and most of them on one decision. */
  @Test
  void decisionsOfWhoDeterminedThousands_areFoundAllTheSame() {
    UUID a = decide("k-1", "start-running", "met", day(1));
    UUID b = decide("k-2", "start-running", "met", day(2));
    decide("k-3", "start-running", "met", day(3));
    determine(DecisionSearch.FEW, a, "dr-busy", true);
    determine(1, b, "dr-busy", true);

    assertThat(found(determined("dr-busy", null))).containsExactly(b, a);
    assertThat(found(determined("dr-busy", true))).containsExactly(b, a);
  }

  private void determine(int times, UUID decision, String clinician, boolean differs) {
    store()
        .<Boolean>write(
            w -> {
              for (int i = 0; i < times; i++) {
                w.audit()
                    .insertDetermination(
                        new StoredDetermination(
                            clinic,
                            Samples.newId(),
                            decision,
                            "k-1",
                            "cleared",
                            clinician,
                            differs,
                            NOON,
                            Samples.bytes("{}")));
              }
              return true;
            });
  }

  private static DecisionFilter determined(@Nullable String clinician, @Nullable Boolean differs) {
    return DecisionFilter.ALL.about(
        Optional.empty(), Optional.ofNullable(clinician), Optional.ofNullable(differs));
  }

  private List<UUID> found(DecisionFilter filter) {
    return store().read(r -> r.decisions(clinic, filter, Optional.empty(), 50)).stream()
        .map(StoredDecision::id)
        .toList();
  }

  private static DecisionFilter filter(String member, String value) {
    return new DecisionFilter(
        Optional.empty(),
        Optional.of(value).filter(v -> member.equals("milestone")),
        Optional.of(value).filter(v -> member.equals("criteriaSet")),
        Optional.of(value).filter(v -> member.equals("criteriaVersion")),
        Optional.of(value).filter(v -> member.equals("outcome")),
        Optional.empty(),
        Optional.empty());
  }

  private static DecisionFilter decidedIn(Instant from, Instant before) {
    return new DecisionFilter(
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.of(from),
        Optional.of(before));
  }
}
