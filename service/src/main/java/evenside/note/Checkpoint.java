package evenside.note;

import evenside.merkle.Hash;
import evenside.merkle.TreeHead;
import java.util.List;

/**
 * The head of a ledger as it is signed.
 *
 * <p>Shape: three lines, origin, size, base64 of the root. Source: C2SP tlog-checkpoint; no
 * extension lines, which it advises against.
 *
 * @param origin name of the ledger, which is also the name of its keys
 * @param head size and root
 */
public record Checkpoint(String origin, TreeHead head) {
  /** Checks the origin. */
  public Checkpoint {
    VerifierKey.checkName(origin);
  }

  /**
   * Reads the text of a note.
   *
   * @throws IllegalArgumentException if it is no checkpoint
   */
  public static Checkpoint parse(String text) {
    String[] lines = text.split("\n", -1);
    if (lines.length != 4 || !lines[3].isEmpty()) {
      throw new IllegalArgumentException("a checkpoint has three lines");
    }
    if (!lines[1].matches("0|[1-9][0-9]{0,18}")) {
      throw new IllegalArgumentException("not the size of a ledger: " + lines[1]);
    }
    return new Checkpoint(
        lines[0], new TreeHead(Long.parseLong(lines[1]), Hash.ofBase64(lines[2])));
  }

  /** The three lines. */
  public String text() {
    return origin + "\n" + head.size() + "\n" + head.root().base64() + "\n";
  }

  /** The checkpoint, signed by one key or, while keys change, several. */
  public SignedNote sign(List<SigningKey> keys) {
    return SignedNote.sign(text(), origin, keys);
  }
}
