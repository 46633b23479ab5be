package evenside.training;

/** Answer to a warning question. A question that was not asked is {@link #UNKNOWN}. */
public enum Answer {
  YES,
  NO,
  UNKNOWN;

  /** The more worrying of two answers: yes before not known before no. */
  public Answer or(Answer that) {
    if (this == YES || that == YES) {
      return YES;
    }
    return this == UNKNOWN || that == UNKNOWN ? UNKNOWN : NO;
  }
}
