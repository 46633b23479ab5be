package evenside.api.webhook;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The date is the example of RFC 9110, section 5.6.7, in its three forms; 120 s that of 10.2.3. */
class RetryAfterTest {
  private static final Instant BEFORE = Instant.parse("1994-11-06T08:44:37Z");

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "120|PT2M",
        " 120 |PT2M",
        "0|PT0S",
        "0000000000007|PT7S",
        "86400|PT24H",
        "86401|PT24H",
        "99999999999999999999999|PT24H",
        "Sun, 06 Nov 1994 08:49:37 GMT|PT5M",
        "Sunday, 06-Nov-94 08:49:37 GMT|PT5M",
        "Sun Nov  6 08:49:37 1994|PT5M",
        "Sat, 05 Nov 1994 08:49:37 GMT|PT0S",
        "Wed, 09 Nov 1994 08:49:37 GMT|PT24H",
      })
  void secondsOrDate_isThePause_withinADay(String value, Duration pause) {
    assertThat(RetryAfter.of(value, BEFORE)).contains(pause);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"", "-1", "1.5", "soon", "1994-11-06T08:49:37Z", "Mon, 06 Nov 1994 08:49:37 GMT"})
  void anythingElse_asksForNothing(String value) {
    assertThat(RetryAfter.of(value, BEFORE)).isEqualTo(Optional.empty());
  }

  /** RFC 9110: what seems more than 50 years in the future is a year of the past. */
  @Test
  void yearOfTwoDigits_isNotFarAhead() {
    assertThat(
            RetryAfter.of("Sunday, 06-Nov-94 08:49:37 GMT", Instant.parse("2026-11-06T00:00:00Z")))
        .contains(Duration.ZERO);
  }
}
