package evenside.api.webhook;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.openapi.Repository;
import evenside.api.webhook.Receiver.Heard;
import evenside.ledger.Ledger;
import evenside.readiness.ReadinessService;
import evenside.schemas.Contract;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import java.io.IOException;
import java.net.ServerSocket;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.IntUnaryOperator;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Announcements of a real record to a real receiver. */
@SuppressWarnings("try") // what sends is closed at the end of a block, and not named in it
class WebhooksTest {
  private static final byte[] SECRET =
      "0123456789abcdef0123456789abcdef".getBytes(StandardCharsets.US_ASCII);
  private static final Webhooks.Limits LIMITS =
      new Webhooks.Limits(
          Duration.ofDays(7),
          100,
          new Backoff(Duration.ofMillis(20), Duration.ofMillis(50)),
          Duration.ofMillis(20));

  @TempDir static Path folder;

  @AutoClose private static Store store;
  private static ReadinessService service;

  @BeforeAll
  static void open() {
    store = Store.open(StoreSettings.inFolder(folder));
    service =
        ReadinessService.of(
            Contract.published(),
            store,
            Ledger.off(store),
            InstantSource.system(),
            5,
            clinic -> !clinic.equals("untold"));
  }

  private static JsonNode example(String path) {
    try {
      Path file = Repository.path("schemas/examples/valid/" + path + ".json");
      return JsonMapper.shared().readTree(Files.readAllBytes(file));
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Decides, and gives the id of the decision. */
  private static String decide(String clinic, String caseId) {
    service.cases().put(clinic, caseId, example("case/minimal"), Optional.empty());
    return service
        .decisions()
        .decide(clinic, caseId, example("decision-request/by-milestone"), Optional.empty())
        .id();
  }

  private static Webhooks webhooks(String clinic, URI url) {
    Target target = new Target(clinic, url, "key-1", new Target.Secret(SECRET));
    return Webhooks.start(service.announcements(), List.of(target), InstantSource.system(), LIMITS);
  }

  private static Receiver receiver(IntUnaryOperator answer) throws IOException {
    return new Receiver(0, SECRET, answer);
  }

  private static void awaitEmpty(String clinic) throws InterruptedException {
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(10);
    while (service.announcements().waiting(clinic) > 0 && System.nanoTime() < end) {
      Thread.sleep(20);
    }
    assertThat(service.announcements().waiting(clinic)).isZero();
  }

  @Test
  void decision_isTold_signed_andByIdsAlone() throws Exception {
    String decision = decide("told", "knee-1");
    try (Receiver receiver = receiver(n -> 204);
        Webhooks webhooks = webhooks("told", URI.create(receiver.url()))) {
      Heard heard = receiver.await(1).get(0);
      assertThat(heard.genuine()).isTrue();
      assertThat(heard.parameters()).contains("keyid=\"key-1\"", "alg=\"hmac-sha256\"", "created=");
      JsonNode body = heard.json();
      assertThat(body.propertyNames())
          .containsExactlyInAnyOrder(
              "schemaVersion", "type", "eventId", "sequence", "caseId", "decisionId", "decidedAt");
      assertThat(body.path("type").asString()).isEqualTo("decision-recorded");
      assertThat(body.path("decisionId").asString()).isEqualTo(decision);
      assertThat(body.path("caseId").asString()).isEqualTo("knee-1");
      assertThat(body.path("eventId").asString()).isEqualTo(heard.event());
      awaitEmpty("told");
      assertThat(receiver.heard()).hasSize(1);
    }
  }

  @Test
  void receiverThatFails_isAskedAgain_underTheSameEvent_untilItTakesIt() throws Exception {
    String decision = decide("failing", "knee-1");
    try (Receiver receiver = receiver(n -> n <= 3 ? 503 : 200);
        Webhooks webhooks = webhooks("failing", URI.create(receiver.url()))) {
      List<Heard> heard = receiver.await(4);
      assertThat(heard).hasSize(4).allMatch(Heard::genuine);
      assertThat(heard).extracting(Heard::event).containsOnly(heard.get(0).event());
      assertThat(heard.get(3).json().path("decisionId").asString()).isEqualTo(decision);
      awaitEmpty("failing");
    }
  }

  /** Its own pause would be over within 50 ms; the announcement of another case waits as well. */
  @Test
  void receiverThatAsksForTime_isLeftAloneForThatLong() throws Exception {
    decide("asking", "knee-1");
    decide("asking", "knee-2");
    try (Receiver receiver = receiver(n -> n == 1 ? 503 : 200).asking("1");
        Webhooks webhooks = webhooks("asking", URI.create(receiver.url()))) {
      receiver.await(1);
      long heard = System.nanoTime();
      Thread.sleep(600);
      assertThat(receiver.heard()).hasSize(1);
      assertThat(receiver.await(3)).hasSize(3);
      assertThat(System.nanoTime() - heard).isGreaterThan(TimeUnit.MILLISECONDS.toNanos(900));
      awaitEmpty("asking");
    }
  }

  @Test
  void redirect_isNotFollowed() throws Exception {
    decide("moved", "knee-1");
    try (Receiver elsewhere = receiver(n -> 200);
        Receiver receiver = receiver(n -> 307);
        Webhooks webhooks = webhooks("moved", URI.create(receiver.url()))) {
      assertThat(receiver.await(3)).hasSizeGreaterThanOrEqualTo(3);
      assertThat(receiver.heard().get(0).body()).isEqualTo(receiver.heard().get(1).body());
      assertThat(elsewhere.heard()).isEmpty();
      assertThat(service.announcements().waiting("moved")).isEqualTo(1);
    }
  }

  @Test
  void decisionsOfACase_areToldInOrder_andAnotherCaseDoesNotWait() throws Exception {
    String first = decide("ordered", "knee-1");
    String second = decide("ordered", "knee-1");
    String other = decide("ordered", "knee-2");
    try (Receiver receiver = receiver(n -> n == 1 ? 500 : 200);
        Webhooks webhooks = webhooks("ordered", URI.create(receiver.url()))) {
      List<String> told =
          receiver.await(4).stream().map(h -> h.json().path("decisionId").asString()).toList();
      assertThat(told).hasSize(4).startsWith(first).contains(other);
      assertThat(told.subList(1, 4).indexOf(first)).isLessThan(told.subList(1, 4).indexOf(second));
      List<Long> sequence =
          receiver.heard().stream()
              .filter(h -> h.json().path("caseId").asString().equals("knee-1"))
              .map(h -> h.json().path("sequence").asLong())
              .toList();
      assertThat(sequence).isSorted();
    }
  }

  @Test
  void receiverThatIsNotThere_losesNothing() throws Exception {
    int port;
    try (ServerSocket free = new ServerSocket(0)) {
      port = free.getLocalPort();
    }
    String decision = decide("away", "knee-1");
    try (Webhooks webhooks =
        webhooks("away", URI.create("http://127.0.0.1:" + port + "/hooks/evenside"))) {
      Thread.sleep(300);
      assertThat(service.announcements().waiting("away")).isEqualTo(1);
      try (Receiver receiver = new Receiver(port, SECRET, n -> 200)) {
        assertThat(receiver.await(1).get(0).json().path("decisionId").asString())
            .isEqualTo(decision);
      }
    }
  }

  @Test
  void clinicWithoutAReceiver_queuesNothing_andAnErasedCaseIsNotTold() {
    decide("untold", "knee-1");
    assertThat(service.announcements().waiting("untold")).isZero();
    decide("erasing", "knee-1");
    assertThat(service.announcements().waiting("erasing")).isEqualTo(1);
    store.write(
        writing -> {
          writing.erasing().eraseCase("erasing", "knee-1");
          return true;
        });
    assertThat(service.announcements().waiting("erasing")).isZero();
  }

  @Test
  void tooManyAndTooOld_areGivenUp() throws Exception {
    String lost = decide("full", "knee-1");
    decide("full", "knee-2");
    assertThat(service.announcements().giveUp("full", Duration.ofDays(1), 1))
        .extracting(Object::toString)
        .containsExactly(lost);
    Thread.sleep(5);
    assertThat(service.announcements().giveUp("full", Duration.ZERO, 100)).hasSize(1);
    assertThat(service.announcements().waiting("full")).isZero();
  }

  @Test
  void pauses_growAndAreBounded() {
    Backoff backoff = Backoff.DEFAULT;
    java.util.Random random = new java.util.Random(1);
    for (int attempt = 1; attempt < 200; attempt++) {
      long most = attempt < 12 ? 5_000L << (attempt - 1) : 3_600_000;
      most = Math.min(most, 3_600_000);
      assertThat(backoff.after(attempt, random))
          .isBetween(Duration.ofMillis(most - most / 4 - 1), Duration.ofMillis(most));
    }
  }

  @Test
  void instantOfASignature_isTheClocks() throws Exception {
    decide("clocked", "knee-1");
    Target target;
    try (Receiver receiver = receiver(n -> 200)) {
      target = new Target("clocked", URI.create(receiver.url()), "k", new Target.Secret(SECRET));
      Instant then = Instant.parse("2021-04-20T02:07:53Z");
      Sender.Answer answer;
      try (Sender sender = new Sender(InstantSource.fixed(then))) {
        answer =
            sender.send(
                target,
                service.announcements().take("clocked", Duration.ofSeconds(1)).orElseThrow());
      }
      assertThat(answer.status()).isEqualTo(200);
      // 1618884473 is that instant in appendix B of RFC 9421.
      assertThat(receiver.heard().get(0).parameters()).contains("created=1618884473;");
    }
  }
}
