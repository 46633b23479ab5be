package evenside.readiness.decision;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.readiness.Documents;
import evenside.readiness.ReadinessService;
import evenside.readiness.recording.Recorded;
import evenside.store.Reading;
import evenside.store.Store;
import evenside.store.StoredDecision;
import evenside.store.database.StoreSettings;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** A decision says how often the knee was tested shortly before, and keeps that as an input. */
class RepeatLooksRecordTest {
  private static final String CLINIC = "local";

  @Test
  void batteries_ofFourteenDays_areCountedToTheDay(@TempDir Path folder) {
    try (Store store = Store.open(StoreSettings.inFolder(folder))) {
      InstantSource clock = InstantSource.fixed(Documents.NOW);
      ReadinessService service = ReadinessService.of(Documents.CONTRACT, store, clock);
      service.cases().put(CLINIC, "k-1", Documents.person(), Optional.empty());
      for (String at :
          new String[] {
            "2026-09-17T23:59:59+02:00", // one second too early
            "2026-09-18T00:00:00+02:00",
            "2026-09-22T10:00:00+02:00",
            "2026-09-26T10:00:00+02:00",
            "2026-10-01T12:00:00+02:00"
          }) {
        service.batteries().add(CLINIC, "k-1", on(at), Optional.empty());
      }
      ObjectNode request = JsonNodeFactory.instance.objectNode().put("schemaVersion", "1.0");
      request.put("milestone", "return-to-competition").put("asOf", "2026-10-01");
      Recorded made = service.decisions().decide(CLINIC, "k-1", request, Optional.empty());
      JsonNode decision = Documents.tree(made.document());
      assertThat(decision.at("/repeatLooks/days").asInt()).isEqualTo(14);
      assertThat(decision.at("/repeatLooks/batteries").asInt()).isEqualTo(4);
      // 1 - 0.95^4, by hand.
      assertThat(decision.at("/repeatLooks/chanceOfFalseChange/value").asDouble())
          .isEqualTo(18.549375);
      JsonNode caution =
          Documents.first(decision.path("cautions"), Documents.has("code", "repeated-looks"));
      assertThat(caution.path("text").asString())
          .contains(
              "4 batteries, which makes that chance 18.55 % for a test that each of them holds.");
      assertThat(inputs(store, made.id()).path("batteriesInLast14Days").asInt()).isEqualTo(4);
    }
  }

  @Test
  void oneBattery_isNoRepeat() {
    JsonNode decision = Documents.assess(Documents.everyMeasure()).at("/decisions/0");
    assertThat(decision.at("/repeatLooks/batteries").asInt()).isEqualTo(1);
    assertThat(decision.path("cautions").valueStream())
        .noneMatch(Documents.has("code", "repeated-looks"));
  }

  private static ObjectNode on(String at) {
    ObjectNode battery = Documents.everyMeasure();
    battery.remove("recordId");
    return battery.put("performedAt", at);
  }

  private static JsonNode inputs(Store store, String id) {
    StoredDecision kept =
        store
            .read((Reading reading) -> reading.decision(CLINIC, UUID.fromString(id)))
            .orElseThrow();
    return Documents.tree(evenside.document.Document.ofCanonical(kept.inputs()));
  }
}
