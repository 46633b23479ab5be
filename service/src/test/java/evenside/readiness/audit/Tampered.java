package evenside.readiness.audit;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.merkle.Hash;
import java.util.Arrays;
import java.util.Base64;
import tools.jackson.databind.node.ObjectNode;

/** Bundles of evidence with one thing changed. */
final class Tampered {
  private Tampered() {}

  static ObjectNode without(ObjectNode bundle, String member) {
    ObjectNode other = bundle.deepCopy();
    other.remove(member);
    return other;
  }

  static ObjectNode flipped(ObjectNode bundle, String member, int at) {
    byte[] bytes = Base64.getDecoder().decode(bundle.path(member).asString());
    bytes[at] ^= 1;
    return bundle.deepCopy().put(member, Base64.getEncoder().encodeToString(bytes));
  }

  static String cut(ObjectNode bundle, String member) {
    byte[] bytes = Base64.getDecoder().decode(bundle.path(member).asString());
    return Base64.getEncoder().encodeToString(Arrays.copyOf(bytes, bytes.length - 1));
  }

  /** A line of the proof counted from its end, the last being -1. */
  static String line(ObjectNode bundle, int fromEnd) {
    String[] lines = bundle.path("proof").asString().split("\n", -1);
    // The text ends with a newline, so an empty piece follows its last line.
    return lines[lines.length - 1 + fromEnd];
  }

  static ObjectNode replaced(ObjectNode bundle, String member, String old, String by) {
    String text = bundle.path(member).asString();
    assertThat(text).contains(old);
    return bundle.deepCopy().put(member, text.replace(old, by));
  }

  static String root() {
    return Hash.sha256(new byte[] {9}).base64();
  }

  static String otherSignature(ObjectNode bundle) {
    String proof = bundle.path("proof").asString();
    int at = proof.length() - 20;
    char other = proof.charAt(at) == 'A' ? 'B' : 'A';
    return proof.substring(0, at) + other + proof.substring(at + 1);
  }
}
