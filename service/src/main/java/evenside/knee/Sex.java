package evenside.knee;

/** Sex as published criteria and norms use it. */
public enum Sex {
  FEMALE("female"),
  MALE("male"),
  NOT_STATED("not-stated");

  private final String code;

  Sex(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }
}
