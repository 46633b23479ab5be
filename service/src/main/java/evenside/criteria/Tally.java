package evenside.criteria;

/** Counts outcomes, and joins them by their numbers alone. */
final class Tally {
  private int counted;
  private int met;
  private int possible;

  /** Counts one more. */
  void add(Truth truth) {
    counted++;
    met += truth == Truth.MET ? 1 : 0;
    possible += truth == Truth.NOT_MET ? 0 : 1;
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
    return met >= count ? Truth.MET : possible >= count ? Truth.UNDETERMINED : Truth.NOT_MET;
  }
}
