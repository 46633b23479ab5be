package evenside.evidence;

/** Computes a decision again from what went in. */
@FunctionalInterface
public interface Recompute {
  /**
   * The bytes of the decision.
   *
   * @param inputs bytes of the inputs document
   * @param criteriaSet bytes of the criteria set
   * @throws IllegalArgumentException if this program cannot, saying why
   */
  byte[] decision(byte[] inputs, byte[] criteriaSet);
}
