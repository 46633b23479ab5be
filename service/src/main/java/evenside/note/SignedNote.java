package evenside.note;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;

/**
 * Text with signature lines below it.
 *
 * <p>Shape: the text, which ends with a newline; an empty line; one line {@code — name base64(id[4]
 * || signature)} per signature. Source: C2SP signed-note.
 *
 * @param text what is signed, with its last newline
 * @param signatures at least one; those by unknown keys are kept and ignored
 */
public record SignedNote(String text, List<SignatureLine> signatures) {
  static final int KEY_ID_LENGTH = 4;
  private static final int MOST_SIGNATURES = 16;
  private static final String MARK = "\u2014 ";

  /** Checks the text and that it is signed. */
  public SignedNote {
    checkText(text);
    signatures = List.copyOf(signatures);
    if (signatures.isEmpty() || signatures.size() > MOST_SIGNATURES) {
      throw new IllegalArgumentException(
          "a note has 1 to " + MOST_SIGNATURES + " signatures, not " + signatures.size());
    }
  }

  /**
   * One signature line.
   *
   * @param name name of the key
   * @param keyId eight hexadecimal digits
   * @param base64 id and signature
   */
  public record SignatureLine(String name, String keyId, String base64) {
    static SignatureLine parse(String line) {
      int blank = line.indexOf(' ', MARK.length());
      if (!line.startsWith(MARK) || blank < 0) {
        throw new IllegalArgumentException("not a signature line: " + line);
      }
      String name = line.substring(MARK.length(), blank);
      VerifierKey.checkName(name);
      String base64 = line.substring(blank + 1);
      byte[] bytes = Base64.getDecoder().decode(base64);
      if (bytes.length <= KEY_ID_LENGTH
          || !Base64.getEncoder().encodeToString(bytes).equals(base64)) {
        throw new IllegalArgumentException("not a signature: " + base64);
      }
      return of(name, bytes);
    }

    static SignatureLine of(String name, byte[] idAndSignature) {
      String id = java.util.HexFormat.of().formatHex(Arrays.copyOf(idAndSignature, KEY_ID_LENGTH));
      return new SignatureLine(name, id, Base64.getEncoder().encodeToString(idAndSignature));
    }

    byte[] signature() {
      byte[] bytes = Base64.getDecoder().decode(base64);
      return Arrays.copyOfRange(bytes, KEY_ID_LENGTH, bytes.length);
    }

    String line() {
      return MARK + name + " " + base64 + "\n";
    }
  }

  /** Signs a text with one key or, while keys change, several. */
  public static SignedNote sign(String text, String name, List<SigningKey> keys) {
    checkText(text);
    List<SignatureLine> lines = new ArrayList<>();
    for (SigningKey key : keys) {
      byte[] id = key.verifier(name).idBytes();
      byte[] signature = key.sign(text.getBytes(StandardCharsets.UTF_8));
      byte[] both = Arrays.copyOf(id, id.length + signature.length);
      System.arraycopy(signature, 0, both, id.length, signature.length);
      lines.add(SignatureLine.of(name, both));
    }
    return new SignedNote(text, lines);
  }

  /**
   * Reads a note.
   *
   * @throws IllegalArgumentException if it is none, saying why
   */
  public static SignedNote parse(String note) {
    int end = note.lastIndexOf("\n\n");
    if (end < 0 || !note.endsWith("\n")) {
      throw new IllegalArgumentException("not a signed note: no signature lines");
    }
    String[] lines = note.substring(end + 2).split("\n", -1);
    List<SignatureLine> signatures = new ArrayList<>();
    for (int i = 0; i < lines.length - 1; i++) {
      signatures.add(SignatureLine.parse(lines[i]));
    }
    return new SignedNote(note.substring(0, end + 1), signatures);
  }

  private static void checkText(String text) {
    boolean fit =
        text.endsWith("\n") && text.chars().noneMatch(c -> c != '\n' && (c < ' ' || c == '\uFFFD'));
    if (!fit) {
      throw new IllegalArgumentException(
          "the text of a note ends with a newline and has no other control characters");
    }
  }

  /** Whether a signature line with the key's name and id is there and is the key's. */
  public boolean isSignedBy(VerifierKey key) {
    byte[] message = text.getBytes(StandardCharsets.UTF_8);
    return signatures.stream()
        .filter(line -> line.name().equals(key.name()) && line.keyId().equals(key.id()))
        .anyMatch(line -> key.verifies(message, line.signature()));
  }

  /** The whole note. */
  public String toText() {
    StringBuilder note = new StringBuilder(text).append('\n');
    signatures.forEach(signature -> note.append(signature.line()));
    return note.toString();
  }
}
