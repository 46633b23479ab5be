package evenside.api.pdf;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class FontsTest {
  @ParameterizedTest
  @EnumSource
  void font_hasEverySignThatPagesUse(Fonts font) throws IOException {
    for (int sign : "≥≤−°×·–—’“”…±√ÄÖÜäöüßé".codePoints().toArray()) {
      assertThat(font.has(sign)).as(Character.toString(sign)).isTrue();
    }
  }

  @ParameterizedTest
  @EnumSource
  void outline_ofALongerText_isLonger(Fonts font) {
    assertThat(font.outline("90 %", 12).length()).isLessThan(font.outline("190 %", 12).length());
  }
}
