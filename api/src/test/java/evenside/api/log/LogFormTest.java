package evenside.api.log;

import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.classic.spi.LoggingEvent;
import ch.qos.logback.core.ConsoleAppender;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.slf4j.event.KeyValuePair;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The two forms of a line, and that neither holds what a caller may have sent. */
class LogFormTest {
  private final LoggerContext log = new LoggerContext();

  private String line(LogForm form, String logger, String sentence, Object... filled) {
    form.apply(log);
    LoggingEvent event =
        new LoggingEvent(
            "",
            log.getLogger(logger),
            Level.WARN,
            sentence,
            new IllegalStateException("message-canary"),
            filled);
    event.setKeyValuePairs(
        new ArrayList<>(
            List.of(
                new KeyValuePair(LogFields.STATUS, 404), new KeyValuePair("patient", "x-canary"))));
    ConsoleAppender<ILoggingEvent> console =
        (ConsoleAppender<ILoggingEvent>)
            log.getLogger(org.slf4j.Logger.ROOT_LOGGER_NAME).getAppender("console");
    assertThat(console.getTarget()).isEqualTo("System.err");
    return new String(console.getEncoder().encode(event), StandardCharsets.UTF_8);
  }

  @Test
  void json_hasTheFieldsNamed_andNoOther() {
    JsonNode line = JsonMapper.shared().readTree(line(LogForm.JSON, "evenside.x", "took {} ms", 5));
    assertThat(line.propertyNames())
        .containsExactly("time", "level", "logger", "message", "status", "failure");
    assertThat(line.path("time").asString()).matches("[-0-9]{10}T[0-9:]{8}(\\.[0-9]+)?Z");
    assertThat(line.path("message").asString()).isEqualTo("took 5 ms");
    assertThat(line.path("status").asInt()).isEqualTo(404);
    assertThat(line.path("failure").asString()).startsWith("java.lang.IllegalStateException\n");
    assertThat(line.toString()).doesNotContain("canary");
  }

  @Test
  void json_ofAnotherLibrary_leavesOutWhatTheSentenceWasFilledWith() {
    String line = line(LogForm.JSON, "org.other", "cannot read {}", "filled-canary");
    assertThat(line).contains("cannot read {}").doesNotContain("canary");
  }

  @Test
  void plain_isALineForAPerson_withoutMessagesOfFailures() {
    String line = line(LogForm.PLAIN, "evenside.x", "took {} ms", 5);
    assertThat(line)
        .matches("(?s)[-0-9]{10}T[0-9:.]{12}[-+Z0-9:]+ WARN  evenside\\.x took 5 ms .*")
        .contains("status=404", "\njava.lang.IllegalStateException\n")
        .doesNotContain("message-canary");
  }

  @Test
  void levels_keepOtherLibrariesQuiet() {
    LogForm.JSON.apply(log);
    assertThat(log.getLogger("evenside.api").isInfoEnabled()).isTrue();
    assertThat(log.getLogger("org.eclipse.jetty.server").isWarnEnabled()).isFalse();
    assertThat(log.getLogger("org.other").isInfoEnabled()).isFalse();
    assertThat(log.getLogger("org.other").isWarnEnabled()).isTrue();
  }
}
