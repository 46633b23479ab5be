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
    Truth all = MET;
    for (Truth truth : truths) {
      all = all.and(truth);
    }
    return all;
  }

  /** Met if one is met; not met for none. */
  public static Truth any(Collection<Truth> truths) {
    Truth any = NOT_MET;
    for (Truth truth : truths) {
      any = any.or(truth);
    }
    return any;
  }

  /** Met if at least {@code count} are met: the count-th largest of them. */
  public static Truth atLeast(int count, Collection<Truth> truths) {
    int met = 0;
    int possible = 0;
    for (Truth truth : truths) {
      met += truth == MET ? 1 : 0;
      possible += truth == NOT_MET ? 0 : 1;
    }
    return met >= count ? MET : possible >= count ? UNDETERMINED : NOT_MET;
  }
}
