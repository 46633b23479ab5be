package evenside.criteria;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.knee.Sex;
import evenside.knee.Yardstick;
import evenside.measure.Evidence;
import evenside.measure.Value;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Months are counted on the calendar, as the papers do; no source gives a rule for short months.
 */
class TimeSinceSurgeryTest {
  private static final About ABOUT =
      new About("time", "Time", new Citation("x", "x", null, null, null), true, null, null);

  /** Invented dates; days and complete months counted by hand on the calendar. */
  @ParameterizedTest
  @CsvSource({
    // nine months, on the day and the day before
    "2026-01-15, '>=', 9, mo, 2026-10-14, NOT_MET, 8, -1",
    "2026-01-15, '>=', 9, mo, 2026-10-15, MET, 9, 0",
    "2026-01-15, '>', 9, mo, 2026-10-15, NOT_MET, 9, -1",
    "2026-01-15, '>', 9, mo, 2026-10-16, MET, 9, 0",
    // 31 August: February has no 31st, so its last day completes the month
    "2025-08-31, '>=', 6, mo, 2026-02-27, NOT_MET, 5, -1",
    "2025-08-31, '>=', 6, mo, 2026-02-28, MET, 6, 0",
    "2025-08-31, '>=', 9, mo, 2026-05-31, MET, 9, 0",
    "2025-08-31, '>', 6, mo, 2026-02-28, NOT_MET, 6, -1",
    // leap day
    "2024-02-29, '>=', 12, mo, 2025-02-27, NOT_MET, 11, -1",
    "2024-02-29, '>=', 12, mo, 2025-02-28, MET, 12, 0",
    "2023-08-31, '>=', 6, mo, 2024-02-28, NOT_MET, 5, -1",
    "2023-08-31, '>=', 6, mo, 2024-02-29, MET, 6, 0",
    // nine months are not 270 days
    "2026-01-15, '>=', 9, mo, 2026-10-12, NOT_MET, 8, -3",
    // weeks
    "2026-03-02, '>=', 12, wk, 2026-05-24, NOT_MET, 11, -1",
    "2026-03-02, '>=', 12, wk, 2026-05-25, MET, 12, 0",
    "2026-03-02, '>', 12, wk, 2026-05-25, NOT_MET, 12, -1",
    "2026-03-02, '>', 12, wk, 2026-05-26, MET, 12, 0",
    // the day of the surgery
    "2026-03-02, '>=', 12, wk, 2026-03-02, NOT_MET, 0, -84"
  })
  void time_isMetFromItsFirstDayOn(
      LocalDate surgery,
      String comparator,
      int bound,
      String unit,
      LocalDate asOf,
      Truth truth,
      double elapsed,
      double days) {
    Finding finding = evaluate(surgery, comparator, bound, unit, asOf);
    assertThat(finding.truth()).isEqualTo(truth);
    assertThat(finding.value()).isEqualTo(Value.Amount.of(elapsed, unit));
    assertThat(finding.margin()).isNotNull();
    assertThat(finding.margin().value()).isEqualTo(days);
    assertThat(finding.margin().unit()).isEqualTo("d");
  }

  @Test
  void tooEarly_saysFromWhichDayOn() {
    Finding finding =
        evaluate(LocalDate.parse("2025-08-31"), ">", 6, "mo", LocalDate.parse("2026-02-01"));
    assertThat(finding.toMeet()).isNotNull();
    assertThat(finding.toMeet().date()).isEqualTo("2026-03-01");
    assertThat(finding.toMeet().text()).isEqualTo("from 2026-03-01 on");
    assertThat(finding.reason()).isNotNull();
    assertThat(finding.reason().text()).isEqualTo("28 days too early");

    Finding nextDay =
        evaluate(LocalDate.parse("2025-08-31"), ">", 6, "mo", LocalDate.parse("2026-02-28"));
    assertThat(nextDay.reason()).isNotNull();
    assertThat(nextDay.reason().text()).isEqualTo("1 day too early");
  }

  private static Finding evaluate(
      LocalDate surgery, String comparator, int bound, String unit, LocalDate asOf) {
    Evidence evidence =
        new Evidence(surgery, Sex.MALE, Yardstick.SOUND, asOf, null, List.of(), List.of());
    return new TimeSinceSurgery(ABOUT, Comparator.of(comparator), bound, unit)
        .evaluate(evidence, true);
  }
}
