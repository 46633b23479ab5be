package evenside.knee;

/** Sex as published criteria and norms use it. */
public enum Sex {
  FEMALE,
  MALE,
  NOT_STATED
}
