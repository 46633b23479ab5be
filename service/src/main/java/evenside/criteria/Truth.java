package evenside.criteria;

/**
 * Three-valued outcome. The order is the logic: <em>and</em> is the smaller, <em>or</em> the
 * larger, so one not met decides <em>and</em> whatever is still unknown.
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
}
