package evenside.criteria;

import java.util.Collection;

/**
 * Three-valued outcome. The order is the logic: <em>all</em> is the smallest, <em>any</em> the
 * largest, so one not met decides <em>all</em> whatever is still unknown.
 *
 * <p>Source: the truth tables of Clinical Quality Language for and, or, not (HL7).
 */
public enum Truth {
  NOT_MET("not-met"),
  UNDETERMINED("undetermined"),
  MET("met");

  private final String code;

  Truth(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }

  public static Truth of(boolean met) {
    return met ? MET : NOT_MET;
  }

  public Truth and(Truth that) {
    return compareTo(that) <= 0 ? this : that;
  }

  public Truth or(Truth that) {
    return compareTo(that) >= 0 ? this : that;
  }

  public Truth not() {
    return switch (this) {
      case NOT_MET -> MET;
      case UNDETERMINED -> UNDETERMINED;
      case MET -> NOT_MET;
    };
  }

  /** Met if every one is met; met for none. */
  public static Truth all(Collection<Truth> truths) {
    return tally(truths).all();
  }

  /** Met if one is met; not met for none. */
  public static Truth any(Collection<Truth> truths) {
    return tally(truths).any();
  }

  /** Met if at least {@code count} are met: the count-th largest of them. */
  public static Truth atLeast(int count, Collection<Truth> truths) {
    return tally(truths).atLeast(count);
  }

  private static Tally tally(Collection<Truth> truths) {
    Tally tally = new Tally();
    truths.forEach(tally::add);
    return tally;
  }
}
