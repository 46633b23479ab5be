package evenside.schemas;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * One word for one thing in everything a program reads: member names, enums and codes. The words on
 * the left were once used beside those on the right; what is allowed of them means something else.
 */
class WordsTest {
  private static final Map<String, String> ONE_WORD =
      Map.ofEntries(
          Map.entry("threshold", "cut-off, or bound as a member"),
          Map.entry("gate", "milestone"),
          Map.entry("programme", "progression"),
          Map.entry("program", "progression"),
          Map.entry("track", "work"),
          Map.entry("tracks", "work"),
          Map.entry("lack", "deficit"),
          Map.entry("done", "completed"),
          Map.entry("detectable", "mdc"));

  /** A timing gate, a running track, and the programme on the field of play (Kyritsis 2016). */
  private static final Set<String> ALLOWED =
      Set.of(
          "gate",
          "timing-gate",
          "track",
          "surface-track",
          "programme-completed",
          "programmeCompleted",
          "session-programme-completed",
          "on-field-programme",
          "on-field-programme-completed",
          "completed-on-field-programme",
          "sport-programme");

  private static final Pattern WORD_END = Pattern.compile("[^A-Za-z]+|(?<=[a-z])(?=[A-Z])");

  @Test
  void published_names_and_codes_use_one_word_for_one_thing() throws IOException {
    Set<String> names = new TreeSet<>();
    for (String folder : List.of("v1", "catalogue", "criteria", "progressions", "instruments")) {
      try (Stream<Path> files = Files.walk(Corpus.FOLDER.resolve(folder))) {
        for (Path file : files.filter(one -> one.toString().endsWith(".json")).toList()) {
          names(JsonMapper.shared().readTree(Files.readAllBytes(file)), names);
        }
      }
    }
    assertThat(names).hasSizeGreaterThan(1000).contains("cut-off", "bound", "milestone");
    names.removeAll(ALLOWED);
    assertThat(names.stream().filter(WordsTest::isTwofold)).isEmpty();
  }

  private static boolean isTwofold(String name) {
    return WORD_END
        .splitAsStream(name)
        .anyMatch(word -> ONE_WORD.containsKey(word.toLowerCase(java.util.Locale.ROOT)));
  }

  /** Member names, and texts that are written as codes are. */
  private static void names(JsonNode json, Set<String> names) {
    names.addAll(json.propertyNames());
    if (json.isString() && json.asString().matches("[a-z][A-Za-z0-9.-]*[a-z0-9]")) {
      names.add(json.asString());
    }
    json.forEach(child -> names(child, names));
  }
}
