package evenside.api.log;

import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import evenside.api.Examples;
import evenside.api.LiveService;
import evenside.api.RawExchange;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.slf4j.LoggerFactory;
import org.slf4j.event.KeyValuePair;

/** The log tells what was asked and how it went, and nothing about a person. */
class LogTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  private static final String CANARY = "canary-7f3a91";

  private final ListAppender<ILoggingEvent> log = new ListAppender<>();
  private final Logger root = (Logger) LoggerFactory.getLogger(Logger.ROOT_LOGGER_NAME);
  private final Logger ours = (Logger) LoggerFactory.getLogger("evenside");
  private final Logger jetty = (Logger) LoggerFactory.getLogger("org.eclipse.jetty");

  @BeforeEach
  void listen() {
    // As LogForm has it.
    ours.setLevel(Level.INFO);
    jetty.setLevel(Level.ERROR);
    log.start();
    root.addAppender(log);
  }

  @AfterEach
  void stopListening() {
    root.detachAppender(log);
    ours.setLevel(null);
    jetty.setLevel(null);
  }

  @Test
  void request_isOneLineWithTemplateStatusTimeAndIds() throws InterruptedException {
    String trace = "0af7651916cd43dd8448eb211c80319c";
    String id =
        SERVICE
            .http()
            .header("traceparent", "00-" + trace + "-b7ad6b7169203331-01")
            .get("/v1/cases/unknown-" + CANARY)
            .header("Request-Id");
    assertThat(lines(1))
        .singleElement()
        .asString()
        .matches(
            "request method=GET route=/v1/cases/\\{caseId} status=404 durationMs=[0-9]+ requestId="
                + id
                + " traceId="
                + trace
                + " clientId=local faults=not-found");
  }

  @Test
  void nothingThatWasSent_isLogged() throws InterruptedException {
    SERVICE.http().get("/" + CANARY).statusCode();
    SERVICE.http().get("/v1/decisions?caseId=" + CANARY).statusCode();
    SERVICE.http().get("/v1/decisions?" + CANARY + "=1").statusCode();
    SERVICE
        .http()
        .header("X-" + CANARY, CANARY)
        .header("Accept", CANARY)
        .get("/livez")
        .statusCode();
    SERVICE.http().header("Host", CANARY).get("/livez").statusCode();
    SERVICE.http().header("If-None-Match", CANARY).get("/v1/measures").statusCode();
    SERVICE.http().request(CANARY.replace("-", ""), "/livez").statusCode();
    SERVICE.json("{\"" + CANARY + "\":").put("/v1/cases/" + CANARY).statusCode();
    SERVICE.json("{\"" + CANARY + "\":\"" + CANARY + "\"}").put("/v1/cases/" + CANARY).statusCode();
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/" + CANARY).then().statusCode(201);
    SERVICE
        .json(Examples.battery())
        .header("Idempotency-Key", CANARY)
        .post("/v1/cases/" + CANARY + "/batteries")
        .then()
        .statusCode(201);
    RawExchange.with(
        SERVICE.port(), CANARY + " / HTTP/1.1\r\nHost: a\r\nHost: " + CANARY + "\r\n\r\n");
    assertThat(lines(12))
        .hasSizeGreaterThanOrEqualTo(12)
        .noneMatch(line -> line.contains("7f3a91"));
  }

  /** The log line is written after the answer is sent, so it may come a little later. */
  private List<String> lines(int atLeast) throws InterruptedException {
    for (int i = 0; i < 100 && log.list.size() < atLeast; i++) {
      Thread.sleep(20);
    }
    List<String> lines = new ArrayList<>();
    for (ILoggingEvent event : List.copyOf(log.list)) {
      StringBuilder line = new StringBuilder(event.getFormattedMessage());
      List<KeyValuePair> fields = event.getKeyValuePairs();
      for (KeyValuePair field : fields == null ? List.<KeyValuePair>of() : fields) {
        line.append(' ').append(field.key).append('=').append(field.value);
      }
      lines.add(line.toString());
    }
    return lines;
  }
}
