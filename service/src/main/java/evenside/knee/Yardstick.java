package evenside.knee;

/** What the other leg is worth as a yardstick for the operated one. */
public enum Yardstick {
  /** Nothing speaks against it, or nothing is known. */
  SOUND,
  /**
   * The graft was taken from it at the surgery, so what it shows since is no longer what it could.
   * What it showed before the surgery still counts.
   *
   * <p>Source: Shelbourne (2022), Orthop J Sports Med 10(11), doi 10.1177/23259671221138103: three
   * months after a patellar-tendon graft from the other knee symmetry of strength was 104 % while
   * the operated and the donor leg had 87 % and 86 % of their own strength before surgery.
   */
  GRAFT_TAKEN,
  /** It has a history of its own, so neither what it shows now nor what it showed before counts. */
  OWN_HISTORY
}
