package evenside.measure;

import evenside.knee.Sex;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What was published about a measure in other people. Shown for context; never a pass mark.
 *
 * @param id code of the entry
 * @param measures codes of the measures it is about
 * @param aspect which number of them
 * @param rule ways of testing it was found with
 * @param unit UCUM code of the figures
 * @param statistic what kind of figure it is
 * @param sex the one sex it was found in, or null
 * @param mean mean, or null
 * @param sd standard deviation, or null
 * @param low lower end, or null
 * @param high upper end, or null
 * @param value the one figure, or null
 * @param population the people
 * @param source citation
 * @param verified true if it was read in its source or in a text that reprints it
 * @param note how it is known and what limits it
 */
public record ReferenceValue(
    String id,
    Set<String> measures,
    Aspect aspect,
    ProtocolRule rule,
    String unit,
    String statistic,
    @Nullable Sex sex,
    @Nullable Double mean,
    @Nullable Double sd,
    @Nullable Double low,
    @Nullable Double high,
    @Nullable Double value,
    String population,
    String source,
    boolean verified,
    String note) {
  /** Statistics that say how people are; the others are lines somebody drew, or errors. */
  private static final Set<String> ABOUT_PEOPLE =
      Set.of("mean-sd", "mean", "interval-of-mean", "range-of-means", "reference-value");

  public ReferenceValue {
    measures = Set.copyOf(measures);
  }

  /** True if it says how people are, so that it may stand beside a number of a person. */
  boolean isAboutPeople() {
    return ABOUT_PEOPLE.contains(statistic);
  }

  /** True if it may stand beside a number of a person of this sex, tested this way. */
  boolean suits(Aspect wanted, Protocol protocol, Sex person) {
    return aspect == wanted && (sex == null || sex == person) && rule.accepts(protocol);
  }
}
