package evenside.criteria;

/** Counts outcomes, and joins them by their numbers alone. */
final class Tally {
  private final int[] counts = new int[3];
  private int counted;

  /** Counts one more. */
  void add(Truth truth) {
    counts[truth.ordinal()]++;
    counted++;
  }

  boolean isEmpty() {
    return counted == 0;
  }

  /** Met if every one is met; met for none. */
  Truth all() {
    return atLeast(counted);
  }

  /** Met if one is met; not met for none. */
  Truth any() {
    return atLeast(1);
  }

  /** Met if at least {@code count} are met, not met if they cannot be. */
  Truth atLeast(int count) {
    int met = counts[Truth.MET.ordinal()];
    int possible = met + counts[Truth.UNDETERMINED.ordinal()];
    return met >= count ? Truth.MET : possible >= count ? Truth.UNDETERMINED : Truth.NOT_MET;
  }
}
