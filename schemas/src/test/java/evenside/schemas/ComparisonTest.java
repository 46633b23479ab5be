package evenside.schemas;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Two versions of the schemas compared, and the promise between released versions: what breaks
 * somebody is declared in {@code changes.json}, or the build fails here.
 */
class ComparisonTest {
  private static final Path BUNDLES = Corpus.FOLDER.resolve("bundles");
  private static final Path MADE_UP = Corpus.FOLDER.resolve("src/test/resources/compare");
  private static final String CURRENT = Contract.published().schemaVersion();

  @Test
  void madeUpVersions_differ_exactlyThere() {
    List<String> differences =
        Comparison.of(MADE_UP.resolve("1.0"), MADE_UP.resolve("1.1")).stream()
            .map(Difference::inWords)
            .toList();
    assertThat(differences)
        .containsExactly(
            "       visit /exercises: maxItems was 50, is 80",
            "BREAK  visit /exercises/*/load: a needed member is new",
            "BREAK  visit /minutes: maximum was 300, is 240",
            "BREAK  visit /note: the member is gone",
            "       visit /place: the code \"pool\" is new",
            "       visit /supervised: an optional member is new");
  }

  @Test
  void everyVersion_isCompatibleWithItself() {
    assertThat(Comparison.of(BUNDLES.resolve(CURRENT), BUNDLES.resolve(CURRENT))).isEmpty();
    assertThat(Comparison.of(Contract.published(), CURRENT, CURRENT)).isEmpty();
    assertThatThrownBy(() -> Comparison.of(Contract.published(), "0.9", CURRENT))
        .hasMessageContaining("no version 0.9");
  }

  /** What a change to a published schema does to senders (battery) and to readers (decision). */
  static List<Arguments> changes() {
    return List.of(
        change("battery", "an optional member is new", false, s -> member(s, "extra")),
        change("decision", "an optional member is new", false, s -> member(s, "extra")),
        change("battery", "a needed member is new", true, s -> needed(member(s, "extra"), "extra")),
        change(
            "decision", "a needed member is new", false, s -> needed(member(s, "extra"), "extra")),
        change(
            "battery",
            "the member is gone",
            true,
            s -> s.withObject("/properties").remove("results")),
        change(
            "decision",
            "the member is gone",
            true,
            s -> s.withObject("/properties").remove("outcome")),
        change("battery", "the member may be absent now", false, s -> s.remove("required")),
        change("decision", "the member may be absent now", true, s -> s.remove("required")),
        change(
            "battery",
            "other members are taken now",
            false,
            s -> s.put("additionalProperties", true)),
        change(
            "decision",
            "other members are refused now",
            false,
            s -> s.put("additionalProperties", false)),
        change("battery", "maxProperties was absent, is 3", true, s -> s.put("maxProperties", 3)),
        change("decision", "maxProperties was absent, is 3", false, s -> s.put("maxProperties", 3)),
        change("battery", "type was \"object\", is \"array\"", true, s -> s.put("type", "array")),
        change("battery", "only these are taken now: [1]", true, s -> s.put("const", 1)));
  }

  private static Arguments change(
      String kind, String detail, boolean breaks, Consumer<ObjectNode> change) {
    return Arguments.of(kind, detail, breaks, change);
  }

  private static ObjectNode member(ObjectNode schema, String name) {
    schema.withObject("/properties").putObject(name).put("type", "string");
    return schema;
  }

  private static ObjectNode needed(ObjectNode schema, String name) {
    ((ArrayNode) schema.get("required")).add(name);
    return schema;
  }

  /** Invented changes, one at a time; whom each breaks follows from what a schema refuses. */
  @ParameterizedTest(name = "{0}: {1}")
  @MethodSource("changes")
  void change_isFoundAndWeighed(
      String kind, String detail, boolean breaks, Consumer<ObjectNode> change) {
    SortedMap<String, JsonNode> before = Comparison.bundles(BUNDLES.resolve(CURRENT));
    SortedMap<String, JsonNode> after = new TreeMap<>(before);
    ObjectNode changed = (ObjectNode) before.get(kind).deepCopy();
    change.accept(changed);
    after.put(kind, changed);
    List<Difference> differences = Comparison.of(before, after);
    assertThat(differences)
        .anyMatch(one -> one.kind().equals(kind) && one.detail().equals(detail))
        .filteredOn(one -> one.detail().equals(detail))
        .allMatch(one -> one.breaks() == breaks);
    assertThat(differences).allMatch(one -> one.kind().equals(kind));
  }

  /**
   * A part that many kinds share: each kind that has it reports it, at every place. The bound is in
   * {@code common}, so this also proves that references are followed.
   */
  @Test
  void changeOfASharedPart_isFoundInEveryKindThatHasIt() {
    SortedMap<String, JsonNode> before = Comparison.bundles(BUNDLES.resolve(CURRENT));
    SortedMap<String, JsonNode> after = new TreeMap<>();
    before.forEach((kind, bundle) -> after.put(kind, bundle.deepCopy()));
    for (JsonNode bundle : after.values()) {
      for (JsonNode common : bundle.path("$defs")) {
        if (common.at("/$defs/instant").isObject()) {
          ((ObjectNode) common.at("/$defs/instant")).put("maxLength", 20);
        }
      }
    }
    List<Difference> differences = Comparison.of(before, after);
    assertThat(differences.stream().filter(Difference::breaks).map(Difference::kind))
        .contains("battery", "session");
    assertThat(differences.stream().map(Difference::kind)).contains("decision");
    assertThat(differences).allMatch(one -> one.detail().startsWith("maxLength was "));
  }

  @Test
  void kindThatGoes_isABreak_andOneThatComesIsNot() {
    SortedMap<String, JsonNode> before = Comparison.bundles(BUNDLES.resolve(CURRENT));
    SortedMap<String, JsonNode> after = new TreeMap<>(before);
    after.put("letter", after.remove("battery"));
    assertThat(Comparison.of(before, after))
        .extracting(Difference::inWords)
        .containsExactly("BREAK  battery : the kind is gone", "       letter : the kind is new");
  }

  @Test
  void folderWithoutBundles_isRefused() {
    assertThatThrownBy(() -> Comparison.of(BUNDLES, BUNDLES.resolve(CURRENT)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("there is no bundle");
  }

  /** The bundles of every released version stay, so each is held against the next. */
  @Test
  void releasedVersions_breakNobody_unlessDeclared() {
    List<String> undeclared = new ArrayList<>();
    List<Changes.Version> versions = Changes.published().schemas();
    for (int i = 1; i < versions.size(); i++) {
      Changes.Version newer = versions.get(i - 1);
      undeclared.addAll(
          Changes.undeclared(
              newer,
              Comparison.of(
                  BUNDLES.resolve(versions.get(i).version()), BUNDLES.resolve(newer.version()))));
    }
    assertThat(undeclared).isEmpty();
    assertThat(versions.get(0).version()).isEqualTo(CURRENT);
    assertThat(versions).allMatch(one -> BUNDLES.resolve(one.version()).toFile().isDirectory());
  }

  @Test
  void undeclaredBreak_isNamed_andADeclaredOneIsNot() {
    List<Difference> differences = Comparison.of(MADE_UP.resolve("1.0"), MADE_UP.resolve("1.1"));
    Changes.Version declared =
        new Changes.Version(
            "1.1",
            "2026-11-25",
            List.of("More exercises."),
            List.of("visit /note", "visit /minutes"));
    assertThat(Changes.undeclared(declared, differences))
        .containsExactly("1.1: BREAK  visit /exercises/*/load: a needed member is new");
  }

  /** The samples of the older version are the proof: none that was valid may be refused. */
  @Test
  void samples_keepTheirVerdict_whereNothingBreaks() {
    SortedMap<String, JsonNode> before = Comparison.bundles(BUNDLES.resolve(CURRENT));
    Path samples = Corpus.FOLDER.resolve("examples");
    SortedMap<String, JsonNode> wider = changed(before, s -> member(s, "extra"));
    assertThat(SampleComparison.of(before, wider, samples)).isEmpty();
    SortedMap<String, JsonNode> narrower =
        changed(before, s -> s.withObject("/properties").remove("performedAt"));
    assertThat(SampleComparison.of(before, narrower, samples))
        .isNotEmpty()
        .allMatch(one -> one.breaks() && one.kind().equals("battery"));
    SortedMap<String, JsonNode> anyUnit =
        changed(before, s -> s.withObject("/$defs/hopDistance/properties").putObject("unit"));
    assertThat(SampleComparison.of(before, anyUnit, samples))
        .isNotEmpty()
        .noneMatch(Difference::breaks);
  }

  /** A document says which version it follows; that alone changes no verdict. */
  @Test
  void samples_areReadUnderEitherVersion() {
    SortedMap<String, JsonNode> before = Comparison.bundles(BUNDLES.resolve(CURRENT));
    SortedMap<String, JsonNode> after =
        changed(before, s -> s.withObject("/properties/schemaVersion").put("const", "1.1"));
    assertThat(SampleComparison.of(before, after, Corpus.FOLDER.resolve("examples"))).isEmpty();
  }

  private static SortedMap<String, JsonNode> changed(
      SortedMap<String, JsonNode> before, Consumer<ObjectNode> change) {
    SortedMap<String, JsonNode> after = new TreeMap<>(before);
    ObjectNode battery = (ObjectNode) before.get("battery").deepCopy();
    change.accept(battery);
    after.put("battery", battery);
    return after;
  }
}
