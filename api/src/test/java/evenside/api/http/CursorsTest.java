package evenside.api.http;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.api.problem.ProblemException;
import org.junit.jupiter.api.Test;

class CursorsTest {
  private final Cursors cursors = new Cursors(new byte[32]);

  @Test
  void cursor_readInItsOwnList_isThePosition() {
    for (String position : new String[] {"1", "2026-08-19T10:15:00Z,id", "é,\u0000"}) {
      assertThat(cursors.read("a", "list", cursors.write("a", "list", position)))
          .isEqualTo(position);
    }
  }

  @Test
  void cursor_ofAnotherClinicListOrKey_isRefused() {
    String cursor = cursors.write("a", "list", "1");
    refuses(cursors, "b", "list", cursor);
    refuses(cursors, "a", "other", cursor);
    // The same characters, divided otherwise.
    refuses(cursors, "al", "ist", cursor);
    byte[] otherKey = new byte[32];
    otherKey[0] = 1;
    refuses(new Cursors(otherKey), "a", "list", cursor);
  }

  @Test
  void cursor_withAnyCharacterChanged_isRefused() {
    String cursor = cursors.write("a", "list", "position");
    for (int i = 0; i < cursor.length(); i++) {
      char other = cursor.charAt(i) == 'A' ? 'B' : 'A';
      refuses(cursors, "a", "list", cursor.substring(0, i) + other + cursor.substring(i + 1));
    }
    refuses(cursors, "a", "list", "");
    refuses(cursors, "a", "list", cursor + "=");
  }

  @Test
  void key_ofAnotherLength_isRefused() {
    assertThatThrownBy(() -> new Cursors(new byte[16]))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("32 bytes, not 16");
  }

  private static void refuses(Cursors by, String clinic, String list, String cursor) {
    assertThatThrownBy(() -> by.read(clinic, list, cursor)).isInstanceOf(ProblemException.class);
  }
}
