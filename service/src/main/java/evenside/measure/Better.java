package evenside.measure;

/** Which direction of a measure is better; a property of the measure, not of the test's name. */
public enum Better {
  HIGHER,
  LOWER,
  NEITHER
}
