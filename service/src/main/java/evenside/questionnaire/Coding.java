package evenside.questionnaire;

/** How the answers on a sheet are coded. */
public enum Coding {
  /** The number beside the box on the form; some run against the score. */
  PRINTED("printed"),
  /** The number that enters the score. */
  SCORED("scored");

  private final String code;

  Coding(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }
}
