package evenside.evidence;

/** Computes a decision again from what went in. */
@FunctionalInterface
public interface Recompute {
  /**
   * The bytes of the decision.
   *
   * @param inputs bytes of the inputs document
   * @param criteriaSet bytes of the criteria set
   * @param decisionId id of the decision, which is no matter of computation
   * @param decidedAt when it was recorded, as it says itself
   * @throws IllegalArgumentException if this program cannot, saying why
   */
  byte[] decision(byte[] inputs, byte[] criteriaSet, String decisionId, String decidedAt);
}
