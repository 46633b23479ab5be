package evenside.progression;

import static evenside.training.Diary.DAY_0;
import static evenside.training.Diary.morning;
import static evenside.training.Diary.response;
import static evenside.training.Diary.run;
import static evenside.training.Diary.with;
import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.node.ObjectNode;

/**
 * An invented runner goes through published running sets, each entry posted by itself, and does
 * what the advice says on the first day it allows.
 */
class RunningCourseTest {
  private static final String SET = "running-eight-levels";

  /**
   * Ann Jt 2018;3:40, Table 4: at most every other day, four times in a week, two levels in seven
   * days. Days counted from the first run; worked out by hand from those three limits: up on days
   * 2, 4 (two in the window), 9, 11, 16, 18, 23.
   */
  @Test
  void eight_levels_clean_takes_23_days() {
    assertThat(firstDays(SET, "2018", 8))
        .containsExactlyEntriesOf(days(Map.of(1, 0, 2, 2, 3, 4, 4, 9, 5, 11, 6, 16, 7, 18, 8, 23)));
  }

  /**
   * A hospital's sheet, read second-hand: two days of rest between runs in phases 1 to 3, one in 4
   * to 9, two phases a week at most. By hand: 3, 6, then 10 (the window of seven days holds two ups
   * on days 3 and 6), 13, 17, 20, 24, 27.
   */
  @Test
  void nine_phases_clean_keep_their_rest_days() {
    assertThat(firstDays("running-nine-phases", "2023", 9))
        .containsExactlyEntriesOf(
            days(Map.of(1, 0, 2, 3, 3, 6, 4, 10, 5, 13, 6, 17, 7, 20, 8, 24, 9, 27)));
  }

  /**
   * Trials 2023, Table 1: one rest day between, each phase at least twice. By hand: 4 days each.
   */
  @Test
  void effort_capped_phases_are_done_twice_each() {
    assertThat(firstDays("running-effort-capped", "2023", 6))
        .containsExactlyEntriesOf(days(Map.of(1, 0, 2, 4, 3, 8, 4, 12, 5, 16, 6, 20)));
  }

  /**
   * A surgeon's sheet, second-hand: three runs a week, one rest day between; first week 0, 2, 4.
   */
  @Test
  void timed_weeks_keep_three_runs_in_seven_days() {
    Map<Integer, Long> first = firstDays("running-timed-weeks", "1", 15);
    assertThat(first).containsEntry(1, 0L).containsEntry(2, 2L).containsEntry(3, 4L);
    assertThat(first).containsEntry(4, 7L).containsEntry(7, 14L).containsEntry(15, 32L);
  }

  private static Map<Integer, Long> days(Map<Integer, Integer> days) {
    Map<Integer, Long> ordered = new LinkedHashMap<>();
    for (int level = 1; level <= days.size(); level++) {
      ordered.put(level, days.get(level).longValue());
    }
    return ordered;
  }

  /** First day of each level for somebody who is always clean. */
  private static Map<Integer, Long> firstDays(String set, String version, int last) {
    List<ObjectNode> entries = new ArrayList<>();
    Map<Integer, Long> first = new LinkedHashMap<>();
    LocalDate day = DAY_0;
    int level = 1;
    while (first.size() < last) {
      first.putIfAbsent(level, ChronoUnit.DAYS.between(DAY_0, day));
      entries.add(run(set, version, day, level));
      Advice evening = Book.advice(entries);
      assertThat(evening.outcome()).isIn(Outcome.INSUFFICIENT_DATA, Outcome.HOLD);
      entries.add(morning(day));
      Advice.Next next = Book.advice(entries).work(set).orElseThrow().next();
      level = next.level();
      day = next.earliestOn();
    }
    return first;
  }

  @Test
  void last_level_done_completes_the_progression() {
    List<ObjectNode> entries = List.of(run(DAY_0, 8), morning(DAY_0));
    Advice.Work work = Book.advice(entries).work(SET).orElseThrow();
    assertThat(work.outcome()).isEqualTo(Outcome.ADVANCE);
    assertThat(work.progressionCompleted()).isTrue();
    assertThat(work.next().level()).isEqualTo(8);
  }

  /** Rules EF-2, EF-1 and OK-1 of the evidence's table (own proposal), one after the other. */
  @Test
  void swelling_holds_then_steps_back_then_recovers() {
    LocalDate day = DAY_0;
    List<ObjectNode> entries = new ArrayList<>(List.of(run(day, 4), morning(day)));
    LocalDate swollen = day.plusDays(7);
    entries.add(
        with(run(swollen, 5), e -> response(e).withObject("/effusion").put("after", "trace")));
    Advice.Work evening = Book.advice(entries).work(SET).orElseThrow();
    assertThat(evening.outcome()).isEqualTo(Outcome.HOLD);
    assertThat(Book.rules(evening, "acl-progression")).contains("EF-2", "DT-1");
    assertThat(evening.next().level()).isEqualTo(5);

    entries.add(
        with(
            morning(swollen),
            e -> response(e).withObject("/effusion").put("nextMorning", "trace")));
    Advice.Work next = Book.advice(entries).work(SET).orElseThrow();
    assertThat(next.outcome()).isEqualTo(Outcome.STEP_BACK);
    assertThat(Book.rules(next, "acl-progression")).contains("EF-1", "EF-2");
    assertThat(next.next().level()).isEqualTo(4);

    LocalDate again = next.next().earliestOn();
    entries.add(run(again, 4));
    entries.add(morning(again));
    Advice.Work quiet = Book.advice(entries).work(SET).orElseThrow();
    assertThat(quiet.outcome()).isEqualTo(Outcome.ADVANCE);
    assertThat(quiet.next().level()).isEqualTo(5);
  }

  @Test
  void two_steps_back_in_14_days_ask_for_a_clinician() {
    List<ObjectNode> entries = new ArrayList<>();
    for (int day : List.of(0, 13)) {
      LocalDate on = DAY_0.plusDays(day);
      entries.add(with(run(on, 3), e -> response(e).withObject("/pain").put("worst", 6)));
      entries.add(morning(on));
    }
    assertThat(Book.advice(entries).reviewReasons()).containsExactly("2 steps back in 14 days");
    entries.remove(3);
    entries.remove(2);
    LocalDate later = DAY_0.plusDays(14);
    entries.add(with(run(later, 3), e -> response(e).withObject("/pain").put("worst", 6)));
    entries.add(morning(later));
    assertThat(Book.advice(entries).reviewReasons()).isEmpty();
  }

  @Test
  void lowest_level_has_no_step_below() {
    Advice.Work work =
        Book.advice(
                List.of(
                    with(run(DAY_0, 1), e -> response(e).withObject("/pain").put("worst", 7)),
                    morning(DAY_0)))
            .work(SET)
            .orElseThrow();
    assertThat(work.outcome()).isEqualTo(Outcome.STEP_BACK);
    assertThat(work.floorReached()).isTrue();
    assertThat(work.next().level()).isEqualTo(1);
  }

  /** The advice is a function of the set of entries: order of arrival changes nothing. */
  @Test
  void order_of_arrival_changes_nothing() {
    List<ObjectNode> entries = new ArrayList<>();
    int[] days = {0, 2, 4, 9, 11, 16, 18, 23};
    for (int level = 1; level <= 8; level++) {
      LocalDate day = DAY_0.plusDays(days[level - 1]);
      entries.add(
          level == 6
              ? with(run(day, level), e -> response(e).withObject("/pain").put("worst", 4))
              : run(day, level));
      entries.add(morning(day));
    }
    Advice inOrder = Book.advice(entries);
    Random random = new Random(20260302);
    for (int i = 0; i < 50; i++) {
      Collections.shuffle(entries, random);
      assertThat(Book.advice(entries)).isEqualTo(inOrder);
    }
  }

  /** Own reading of the plan's limits: what is left out for certain, whatever is not recorded. */
  @ParameterizedTest
  @CsvSource({"1, 2, 2", "1, 3, 4", "1, 4, 9", "1, 8, 23", "5, 8, 9", "3, 3, 0"})
  void fewest_days_follow_from_the_limits(int from, int to, long days) {
    assertThat(Frequency.fewestDays(Book.set(SET), from, to)).isEqualTo(days);
  }

  /**
   * By definition: as much as was planned is all of it; invented, where 100·d/d falls short of 100.
   */
  @ParameterizedTest
  @ValueSource(doubles = {2621.51, 1600.002, 20})
  void distance_done_as_planned_is_completed(double metres) {
    ObjectNode run = run(DAY_0, 1);
    ObjectNode work = run.withObject("/entry/training/work/running/0");
    for (String part : List.of("planned", "completed")) {
      work.putObject(part).putObject("runDistance").put("value", metres).put("unit", "m");
    }
    Advice.Work advised = Book.advice(List.of(run, morning(DAY_0))).work(SET).orElseThrow();
    assertThat(advised.outcome()).isEqualTo(Outcome.ADVANCE);
  }

  @Test
  void planned_day_too_early_is_held() {
    List<ObjectNode> entries = List.of(run(DAY_0, 1), morning(DAY_0));
    Advice.Work work =
        Book.advice(
                entries,
                new Advisor.Question(
                    DAY_0.plusDays(1),
                    java.util.Optional.of(DAY_0.plusDays(1)),
                    java.util.Set.of()))
            .work(SET)
            .orElseThrow();
    assertThat(work.outcome()).isEqualTo(Outcome.HOLD);
    assertThat(Book.rules(work, "acl-progression")).contains("FR-1");
    assertThat(work.next().earliestOn()).isEqualTo(DAY_0.plusDays(2));
  }
}
