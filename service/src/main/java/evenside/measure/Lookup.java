package evenside.measure;

import java.util.List;

/** What evidence says when it is asked for one number. */
public sealed interface Lookup {
  /**
   * There are results of the newest day that match; several if the criterion leaves the way of
   * testing open.
   */
  record Found(List<Measured> candidates) implements Lookup {
    public Found {
      candidates = List.copyOf(candidates);
    }
  }

  /** The newest results that match are older than allowed. */
  record TooOld(List<Measured> candidates, long ageDays, int allowedDays) implements Lookup {
    public TooOld {
      candidates = List.copyOf(candidates);
    }
  }

  /** There is none, and why. */
  record Missing(Gap.Reason reason, String detail) implements Lookup {}
}
