package evenside.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.merkle.Hash;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.Test;

class EntryTest {
  private static final Hash SOME = Hash.sha256(new byte[] {7});
  private static final UUID ID = UUID.fromString("0190b2f4-5c1e-7c4a-9d2e-4f0a1b2c3d50");

  private static Entry decision() {
    return new Entry(EntryType.DECISION, 1000, ID, Optional.empty(), SOME, SOME, SOME);
  }

  @Test
  void bytes_areReadBack_orRefused_whateverBitIsTurned() {
    Entry entry = decision();
    byte[] bytes = entry.bytes();
    assertThat(bytes).hasSize(Entry.LENGTH);
    for (int bit = 0; bit < 8 * Entry.LENGTH; bit++) {
      byte[] other = bytes.clone();
      other[bit / 8] ^= (byte) (1 << bit % 8);
      try {
        Entry read = Entry.parse(other);
        assertThat(read).isNotEqualTo(entry);
        assertThat(read.hash()).isNotEqualTo(entry.hash());
        assertThat(read.bytes()).isEqualTo(other);
      } catch (IllegalArgumentException refused) {
        assertThat(refused).hasMessageContaining("entry");
      }
    }
  }

  @Test
  void fieldThatTheTypeDoesNotFill_isRefused() {
    assertThatThrownBy(
            () ->
                new Entry(EntryType.ERASURE, 1, ID, Optional.of(ID), SOME, Entry.ZERO, Entry.ZERO))
        .hasMessage("an entry of type ERASURE has no criteria set");
    assertThatThrownBy(
            () ->
                new Entry(
                    EntryType.DETERMINATION, 1, ID, Optional.empty(), Entry.ZERO, SOME, Entry.ZERO))
        .hasMessage("an entry of type DETERMINATION needs a reference");
  }

  @Test
  void otherLengthsAndVersions_areRefused() {
    assertThatThrownBy(() -> Entry.parse(new byte[137]))
        .hasMessage("an entry has 138 bytes, not 137");
    byte[] second = decision().bytes();
    second[0] = 2;
    assertThatThrownBy(() -> Entry.parse(second))
        .hasMessage("unknown layout version 2 of an entry");
    second[0] = 1;
    second[1] = 8;
    assertThatThrownBy(() -> Entry.parse(second)).hasMessage("unknown type 8 of entry");
  }
}
