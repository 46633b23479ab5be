package evenside.readiness;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import evenside.document.Document;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Refused;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

class BatteryIndicesTest {
  private static final String CLINIC = "local";

  @Test
  void indices_standBesideWhatWasKept_andLeaveItAlone(@TempDir Path folder) {
    try (Store store = Store.open(StoreSettings.inFolder(folder))) {
      InstantSource clock = InstantSource.fixed(Documents.NOW);
      ReadinessService service = ReadinessService.of(Documents.CONTRACT, store, clock);
      service.cases().put(CLINIC, "k-1", Documents.person(), Optional.empty());
      Recorded made =
          service.batteries().add(CLINIC, "k-1", Documents.everyMeasure(), Optional.empty());
      Document kept = service.batteries().get(CLINIC, made.id());
      assertThat(service.batteries().get(CLINIC, made.id(), List.of()).bytes())
          .isEqualTo(kept.bytes());
      Document asked = service.batteries().get(CLINIC, made.id(), List.of("deficit"));
      ObjectNode without = (ObjectNode) Documents.tree(asked);
      without.path("symmetry").forEach(one -> ((ObjectNode) one).remove("indices"));
      assertThat((JsonNode) without).isEqualTo(Documents.tree(kept));
      assertThat(Documents.tree(asked).path("symmetry").findValuesAsString("index"))
          .contains("deficit")
          .containsOnly("deficit");
      Refused refused =
          catchThrowableOfType(
              Refused.class,
              () -> service.batteries().get(CLINIC, made.id(), List.of("deficit", "lsi")));
      assertThat(refused.faults().get(0).pointer()).isEqualTo("#/indices/1");
      assertThat(refused.faults().get(0).limit()).get().asString().contains("symmetry-angle");
    }
  }
}
