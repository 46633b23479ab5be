package evenside.api.page;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.drawing.Mark;
import evenside.api.openapi.Repository;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class TextsTest {
  private static final Pattern KEY =
      Pattern.compile("(?:\\btext|counted)\\(\\s*\"([a-z][a-zA-Z.0-9-]*)\"\\s*(\\+?)");

  @Test
  void key_usedInATemplateOrClass_hasAText() throws IOException {
    Set<String> missing = new TreeSet<>();
    int used = 0;
    for (Path file : sources()) {
      Matcher keys = KEY.matcher(Files.readString(file));
      while (keys.find()) {
        used++;
        boolean begun = keys.group(2).equals("+");
        String key = keys.group(1);
        if (!begun && !Texts.has(key) && !Texts.has(key + ".one")) {
          missing.add(file.getFileName() + " " + key);
        }
      }
    }
    assertThat(missing).isEmpty();
    assertThat(used).isGreaterThan(200);
  }

  @Test
  void key_perOutcome_hasAText() {
    for (Mark mark : Mark.values()) {
      assertThat(Texts.has("outcome." + mark.code())).isTrue();
      assertThat(Texts.has("decision.why." + mark.code())).isTrue();
      assertThat(Texts.has("decision.legend." + mark.code())).isTrue();
    }
  }

  @Test
  void comparator_inWords_isItsOwn() {
    assertThat(Texts.text("comparator.>=", "90")).isEqualTo("at least 90");
    assertThat(Texts.text("comparator.>", "90")).isEqualTo("more than 90");
    assertThat(Texts.text("comparator.<=", "2")).isEqualTo("at most 2");
    assertThat(Texts.text("comparator.<", "2")).isEqualTo("less than 2");
  }

  private static List<Path> sources() throws IOException {
    try (Stream<Path> templates = Files.walk(Repository.path("api/src/main/jte"));
        Stream<Path> classes = Files.walk(Repository.path("api/src/main/java/evenside/api/page"))) {
      return Stream.concat(templates, classes).filter(Files::isRegularFile).toList();
    }
  }
}
