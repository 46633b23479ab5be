package evenside.schemas.acceptor;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.time.YearMonth;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Dates against the platform's calendar; forms against RFC 3339 section 5.6. */
class DatesTest {

  @Test
  void date_is_taken_exactly_if_the_calendar_has_it() {
    for (int year = 1; year <= 9999; year += year < 1890 || year > 2110 ? 97 : 1) {
      for (int month = 0; month <= 13; month++) {
        for (int day = 0; day <= 32; day++) {
          String text = digits(4, year) + "-" + digits(2, month) + "-" + digits(2, day);
          boolean exists = exists(year, month, day);
          if (Dates.isDate(text) != exists || Dates.isDateTime(text + "T00:00:00Z") != exists) {
            fail(text);
          }
        }
      }
    }
  }

  private static String digits(int count, int number) {
    String text = String.valueOf(number);
    return "0".repeat(count - text.length()) + text;
  }

  private static boolean exists(int year, int month, int day) {
    return month >= 1
        && month <= 12
        && day >= 1
        && day <= YearMonth.of(year, month).lengthOfMonth();
  }

  @Test
  void time_of_day_and_offset_are_taken_up_to_their_last() {
    assertThat(
            List.of(
                "2026-03-14T23:59:59Z",
                "2026-03-14T09:30:00.1Z",
                "2026-03-14T09:30:00.123456789+01:00",
                "2026-03-14T09:30:00-14:59"))
        .allMatch(Dates::isDateTime);
  }

  @Test
  void other_forms_are_left_to_the_validator() {
    assertThat(
            List.of(
                "",
                "2026-03-14",
                "2026-03-14T",
                "2026-03-14T09:30:00",
                "2026-03-14T24:00:00Z",
                "2026-03-14T09:60:00Z",
                "2026-03-14T09:30:60Z",
                "2026-03-14t09:30:00Z",
                "2026-03-14T09:30:00z",
                "2026-03-14 09:30:00Z",
                "2026-03-14T09:30:00.Z",
                "2026-03-14T09:30:00.1234567890Z",
                "2026-03-14T09:30:00+0100",
                "2026-03-14T09:30:00+15:00",
                "2026-03-14T09:30:00+01:60",
                "2026-03-14T09:30:00+01:00 ",
                "2026-03-1\u0664T09:30:00Z",
                "0000-03-14T09:30:00Z"))
        .noneMatch(Dates::isDateTime);
    assertThat(List.of("", "2026-3-14", "2026-03-14Z", "2026/03/14", "26-03-2014", "0000-01-01"))
        .noneMatch(Dates::isDate);
  }
}
