package evenside.training;

import evenside.knee.Sex;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * An exercise of the catalogue.
 *
 * @param code its code
 * @param title name in the trade's words
 * @param family member of a session's work it is sent in
 * @param legs whether it is done one leg at a time
 * @param supervision {@code none}, {@code therapist} or {@code partner}
 * @param norms published values of healthy people
 */
public record Exercise(
    String code, String title, String family, Legs legs, String supervision, List<Norm> norms) {
  public Exercise {
    norms = List.copyOf(norms);
  }

  /**
   * A published mean of hold times, for orientation. The spread is wide and skewed, so a distance
   * from the mean is never turned into a percentile.
   *
   * @param people who was measured
   * @param sex their one sex, or null for both
   * @param mean in s
   * @param sd standard deviation in s, above 0
   * @param source citation
   */
  public record Norm(String people, @Nullable Sex sex, double mean, double sd, String source) {
    public Norm {
      if (!(sd > 0)) {
        throw new IllegalArgumentException("standard deviation " + sd + " is not above 0");
      }
    }

    public boolean fits(Sex person) {
      return sex == null || sex == person;
    }

    /** Standard deviations that a time lies above the mean. */
    public double relativeToMean(double seconds) {
      return (seconds - mean) / sd;
    }
  }

  /** Whether an exercise is done one leg at a time. */
  public enum Legs {
    BOTH,
    SINGLE,
    NONE
  }

  public boolean isAlone() {
    return supervision.equals("none");
  }
}
