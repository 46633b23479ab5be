package evenside.note;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.merkle.Hash;
import evenside.merkle.TreeHead;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class NoteTest {
  private static final String NAME = "ledger.example/a";
  private static final SigningKey KEY = SigningKey.generate();
  private static final Checkpoint CHECKPOINT =
      new Checkpoint(NAME, new TreeHead(7, Hash.sha256(new byte[] {7})));

  @Test
  void everyCharacterOfANoteChanged_isRefusedOrNotSigned() {
    String note = CHECKPOINT.sign(List.of(KEY)).toText();
    assertThat(SignedNote.parse(note).isSignedBy(KEY.verifier(NAME))).isTrue();
    for (int i = 0; i < note.length(); i++) {
      String other = note.substring(0, i) + (char) (note.charAt(i) ^ 1) + note.substring(i + 1);
      try {
        assertThat(SignedNote.parse(other).isSignedBy(KEY.verifier(NAME))).as(other).isFalse();
      } catch (IllegalArgumentException refused) {
        assertThat(refused).hasMessageMatching("(?s).+");
      }
    }
  }

  @Test
  void twoKeys_bothSign_andAnUnknownOneIsIgnored() {
    SigningKey next = SigningKey.generate();
    SignedNote note = SignedNote.parse(CHECKPOINT.sign(List.of(KEY, next)).toText());
    assertThat(note.isSignedBy(KEY.verifier(NAME))).isTrue();
    assertThat(note.isSignedBy(next.verifier(NAME))).isTrue();
    assertThat(note.isSignedBy(SigningKey.generate().verifier(NAME))).isFalse();
    assertThat(note.isSignedBy(KEY.verifier("ledger.example/b"))).isFalse();
  }

  @Test
  void checkpoint_isReadBack() {
    assertThat(Checkpoint.parse(CHECKPOINT.text())).isEqualTo(CHECKPOINT);
  }

  /** Invented spellings; C2SP tlog-checkpoint has decimal digits without leading zeros. */
  @ParameterizedTest
  @ValueSource(strings = {"07", "-1", "+7", "7 ", "", "99999999999999999999"})
  void sizeInAnotherForm_isRefused(String size) {
    String text = CHECKPOINT.text().replace("\n7\n", "\n" + size + "\n");
    assertThatThrownBy(() -> Checkpoint.parse(text)).isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void verifierKey_isReadBack_andRefusedWithAnotherId() {
    String line = KEY.verifier(NAME).line();
    assertThat(VerifierKey.parse(line)).isEqualTo(KEY.verifier(NAME));
    String other = line.replace(NAME, "ledger.example/b");
    assertThatThrownBy(() -> VerifierKey.parse(other))
        .hasMessage("the id of the verifier key is not that of its key");
    assertThatThrownBy(() -> VerifierKey.parse("a+b")).hasMessageContaining("name+id+key");
    assertThatThrownBy(() -> VerifierKey.parse(line + "\"}"))
        .hasMessageContaining("name+id+key, with its key in base64");
  }

  /** Invented names; C2SP signed-note allows neither an empty one nor spaces nor a plus. */
  @ParameterizedTest
  @ValueSource(strings = {"", "a b", "a+b", "a\nb", "a\u00a0b"})
  void nameThatNoNoteCanCarry_isRefused(String name) {
    assertThatThrownBy(() -> KEY.verifier(name)).hasMessageContaining("a key name has");
  }
}
