package evenside.readiness.decision;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import evenside.readiness.Desk;
import evenside.readiness.Documents;
import evenside.readiness.ReadinessService;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.schemas.Contract;
import evenside.schemas.Fault;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

class CriteriaSetsTest {
  private static final String CLINIC = "local";
  private static final String THRESHOLD = "/criteria/of/0";

  @TempDir Path folder;
  private Store store;
  private ReadinessService service;

  @BeforeEach
  void open() {
    store = Store.open(StoreSettings.inFolder(folder));
    service = ReadinessService.of(Documents.CONTRACT, store, InstantSource.fixed(Documents.NOW));
  }

  @AfterEach
  void close() {
    store.close();
  }

  @Test
  void ownSet_isServedAndListedForItsClinicAlone() {
    Recorded made = service.criteriaSets().publish(CLINIC, own());
    assertThat(made.novelty()).isEqualTo(Recorded.Novelty.CREATED);
    assertThat(made.id()).isEqualTo("our-knees/1");
    assertThat(service.criteriaSets().get(CLINIC, "our-knees", "1").sha256())
        .isEqualTo(made.document().sha256());
    assertThat(names(CLINIC)).contains("our-knees", "delaware-oslo");
    assertThat(names("another")).doesNotContain("our-knees").contains("delaware-oslo");
    assertThat(refused(() -> service.criteriaSets().get("another", "our-knees", "1")).refusal())
        .isEqualTo(Refusal.NOT_FOUND);
  }

  @Test
  void sameVersionAgain_isUnchanged_andWithOtherContentRefused() {
    service.criteriaSets().publish(CLINIC, own());
    assertThat(service.criteriaSets().publish(CLINIC, own()).novelty())
        .isEqualTo(Recorded.Novelty.UNCHANGED);
    ObjectNode other = own().put("title", "Another title");
    assertThat(refused(() -> service.criteriaSets().publish(CLINIC, other)).refusal())
        .isEqualTo(Refusal.CONFLICT);
    assertThat(service.criteriaSets().publish(CLINIC, other.put("version", "2")).novelty())
        .isEqualTo(Recorded.Novelty.CREATED);
  }

  @Test
  void decision_byAnOwnSet_namesItsBytes() {
    String sha256 = service.criteriaSets().publish(CLINIC, own()).document().sha256();
    service.cases().put(CLINIC, "k-1", Documents.person(), Optional.empty());
    service.batteries().add(CLINIC, "k-1", Documents.everyMeasure(), Optional.empty());
    JsonNode decision = Documents.tree(decide(CLINIC, "k-1").document());
    assertThat(decision.at("/criteriaSet/sha256").asString()).isEqualTo(sha256);
    assertThat(decision.path("outcome").asString()).isEqualTo("met");
    assertThat(decision.at("/repeatLooks/batteries").asInt()).isEqualTo(1);
  }

  @Test
  void decision_byAnotherClinicsSet_isRefused() {
    service.criteriaSets().publish("another", own());
    service.cases().put(CLINIC, "k-1", Documents.person(), Optional.empty());
    assertThat(said(refused(() -> decide(CLINIC, "k-1"))))
        .containsExactly("#/criteriaSet criteria-set.unknown");
  }

  @Test
  void measure_unknownToTheCatalogue() {
    assertThat(faults(THRESHOLD, leaf -> leaf.put("measure", "long-jump")))
        .containsExactly("#/criteria/of/0/measure measure.unknown");
  }

  @Test
  void faultsOfSourceAndMeasure_areToldAtOnce() {
    assertThat(
            faults(
                THRESHOLD,
                leaf -> {
                  leaf.put("measure", "long-jump");
                  ((ObjectNode) leaf.path("citation")).put("source", "no-such");
                }))
        .containsExactly(
            "#/criteria/of/0/citation/source source.unknown",
            "#/criteria/of/0/measure measure.unknown");
  }

  @Test
  void unit_notOfTheMeasure() {
    assertThat(faults(THRESHOLD, leaf -> leaf.put("unit", "N.m/kg")))
        .containsExactly("#/criteria/of/0/unit unit.not-of-measure");
  }

  @Test
  void bound_outsideThePlausible() {
    assertThat(faults(THRESHOLD, leaf -> leaf.put("bound", 900)))
        .containsExactly("#/criteria/of/0/bound value.implausible");
  }

  @Test
  void estimateOfALift_isForTheRecordOnly() {
    assertThat(faults(THRESHOLD, leaf -> leaf.put("measure", "leg-press-one-repetition-maximum")))
        .containsExactly("#/criteria/of/0/aspect aspect.not-offered");
  }

  @Test
  void id_ofAPublishedSet() {
    assertThat(faults("", set -> set.put("id", "delaware-oslo").put("version", "99")))
        .containsExactly("#/id criteria-set.reserved");
  }

  /** A further published set is one more file: no code, no list of names. */
  @Test
  void furtherPublishedSet_needsOnlyItsFile(@TempDir Path published) throws IOException {
    copy(Path.of("..", "schemas"), published);
    Path file = published.resolve("criteria/our-knees/1.json");
    Files.createDirectories(file.getParent());
    Files.writeString(file, own().toString());
    Desk desk = Desk.of(Contract.in(published), InstantSource.fixed(Documents.NOW));
    JsonNode request = Documents.request(Documents.everyMeasure(), "our-knees", "1");
    JsonNode decision = Documents.tree(desk.assess(request)).at("/decisions/0");
    assertThat(decision.path("outcome").asString()).isEqualTo("met");
    assertThat(Documents.tree(desk.criteriaSets()).toString()).contains("our-knees");
  }

  private static void copy(Path from, Path to) {
    for (String folder : List.of("v1", "catalogue", "criteria", "instruments", "progressions")) {
      if (Files.isDirectory(from.resolve(folder))) {
        copyTree(from.resolve(folder), to.resolve(folder));
      }
    }
  }

  private static void copyTree(Path from, Path to) {
    try (Stream<Path> files = Files.walk(from)) {
      for (Path file : files.toList()) {
        Files.copy(file, to.resolve(from.relativize(file).toString()));
      }
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  private Recorded decide(String clinic, String caseId) {
    ObjectNode request = JsonNodeFactory.instance.objectNode().put("schemaVersion", "1.0");
    request.putObject("criteriaSet").put("id", "our-knees").put("version", "1");
    return service
        .decisions()
        .decide(clinic, caseId, request.put("asOf", "2026-10-01"), Optional.empty());
  }

  private List<String> faults(String place, Consumer<ObjectNode> change) {
    ObjectNode set = own();
    change.accept((ObjectNode) set.at(place));
    return said(refused(() -> service.criteriaSets().publish(CLINIC, set)));
  }

  private List<String> names(String clinic) {
    return Documents.tree(service.criteriaSets().list(clinic))
        .path("criteriaSets")
        .valueStream()
        .map(set -> set.path("id").asString())
        .toList();
  }

  private static Refused refused(Runnable asked) {
    return catchThrowableOfType(Refused.class, asked::run);
  }

  private static List<String> said(Refused refused) {
    return refused.faults().stream().map((Fault f) -> f.pointer() + " " + f.code()).toList();
  }

  /** An invented clinic's own set: single-hop symmetry of at least 80 %. */
  private static ObjectNode own() {
    ObjectNode set = JsonNodeFactory.instance.objectNode().put("schemaVersion", "1.0");
    set.put("id", "our-knees").put("version", "1").put("title", "Our knees");
    set.put("milestone", "start-training").put("designedFor", "Starting to train in our clinic.");
    set.put("population", "Our own patients.").put("basis", "clinic-protocol");
    set.putObject("source").put("source", "our-protocol");
    ObjectNode source = set.putArray("sources").addObject().put("key", "our-protocol");
    source.put("citation", "Protocol of an invented clinic, 2026");
    ObjectNode all = set.putObject("criteria").put("type", "all").put("id", "all");
    all.put("title", "Everything");
    ObjectNode hop = all.putArray("of").addObject().put("type", "cut-off").put("id", "hop");
    hop.put("title", "Single hop").put("measure", "single-hop-distance").put("aspect", "symmetry");
    hop.put("comparator", ">=").put("bound", 80).put("unit", "%").put("verified", true);
    hop.putObject("citation").put("source", "our-protocol");
    return set;
  }
}
