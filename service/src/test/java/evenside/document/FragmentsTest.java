package evenside.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;

class FragmentsTest {
  private record Thing(String word) {}

  private final AtomicInteger written = new AtomicInteger();
  private final Fragments<Thing> fragments =
      new Fragments<>(
          (json, thing) -> {
            written.incrementAndGet();
            json.text(thing.word());
          });

  @Test
  void sameThing_isWrittenOnce() {
    Thing thing = new Thing("a");
    assertThat(text(thing)).isEqualTo("\"a\"");
    assertThat(fragments.of(thing)).isSameAs(fragments.of(thing));
    assertThat(written).hasValue(1);
  }

  /** However many come by, each has its own bytes, and only so many are kept. */
  @Test
  void manyThings_doNotPileUp() {
    List<Thing> things = new ArrayList<>();
    for (int i = 0; i < 5_000; i++) {
      things.add(new Thing("w" + i));
    }
    for (int round = 0; round < 2; round++) {
      for (Thing thing : things) {
        assertThat(text(thing)).isEqualTo('"' + thing.word() + '"');
      }
    }
    assertThat(written.get()).isGreaterThan(2 * 5_000 - 2 * 512);
  }

  private String text(Thing thing) {
    return new String(fragments.of(thing), StandardCharsets.UTF_8);
  }
}
