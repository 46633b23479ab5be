package evenside.ledger;

import evenside.merkle.Hash;
import evenside.note.SignedNote;
import java.util.ArrayList;
import java.util.List;

/**
 * That an entry is in a ledger, as a text that needs nothing else but the entry and a key.
 *
 * <p>Shape: {@code c2sp.org/tlog-proof@v1}, {@code index N}, one base64 hash per line, an empty
 * line, the signed checkpoint. Source: C2SP tlog-proof.
 *
 * @param index index of the entry
 * @param hashes its inclusion proof
 * @param checkpoint the signed checkpoint of the tree it is in
 */
public record TlogProof(long index, List<Hash> hashes, SignedNote checkpoint) {
  private static final String HEADER = "c2sp.org/tlog-proof@v1\n";
  private static final String INDEX = "index ";

  /** Keeps its own copy of the hashes. */
  public TlogProof {
    hashes = List.copyOf(hashes);
  }

  /**
   * Reads the text.
   *
   * @throws IllegalArgumentException if it is none, saying why
   */
  public static TlogProof parse(String text) {
    int end = text.indexOf("\n\n");
    if (!text.startsWith(HEADER)) {
      throw new IllegalArgumentException("not a proof: it must start with " + HEADER.strip());
    }
    if (end < 0) {
      throw new IllegalArgumentException(
          "not a whole proof: no empty line with a checkpoint after it");
    }
    List<String> lines = text.substring(HEADER.length(), end).lines().toList();
    if (lines.isEmpty() || !lines.get(0).matches("index (0|[1-9][0-9]{0,18})")) {
      throw new IllegalArgumentException("the second line of a proof is its index");
    }
    if (lines.size() > 64) {
      throw new IllegalArgumentException("a proof has at most 63 hashes");
    }
    List<Hash> hashes = new ArrayList<>();
    lines.subList(1, lines.size()).forEach(line -> hashes.add(Hash.ofBase64(line)));
    return new TlogProof(
        Long.parseLong(lines.get(0).substring(INDEX.length())),
        hashes,
        SignedNote.parse(text.substring(end + 2)));
  }

  /** The text. */
  public String text() {
    StringBuilder text = new StringBuilder(HEADER).append(INDEX).append(index).append('\n');
    hashes.forEach(hash -> text.append(hash.base64()).append('\n'));
    return text.append('\n').append(checkpoint.toText()).toString();
  }
}
