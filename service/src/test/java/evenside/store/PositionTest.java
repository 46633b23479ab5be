package evenside.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PositionTest {
  private static final String ID = "0195d3a1-7c00-7abc-8def-0123456789ab";

  @Test
  void text_isReadBack() {
    Position position =
        new Position(Instant.parse("2026-03-02T12:00:00.123456Z"), UUID.fromString(ID));

    assertThat(position.text()).isEqualTo("2026-03-02T12:00:00.123456Z~" + ID);
    assertThat(Position.parse(position.text())).contains(position);
  }

  @Test
  void time_isCutToWhatTheDatabasesKeep() {
    assertThat(
            new Position(Instant.parse("2026-03-02T12:00:00.123456789Z"), UUID.fromString(ID)).at())
        .isEqualTo("2026-03-02T12:00:00.123456Z");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "~",
        "2026-03-02T12:00:00Z",
        "2026-03-02T12:00:00Z~",
        "2026-03-02T12:00:00Z~1-1-1-1-1",
        "2026-03-02T12:00:00.000Z~" + ID,
        "yesterday~" + ID
      })
  void otherText_isNoPosition(String text) {
    assertThat(Position.parse(text)).isEmpty();
  }
}
