package evenside.decision;

import evenside.criteria.CriteriaSet;
import evenside.criteria.Finding;
import evenside.criteria.Truth;
import java.time.LocalDate;
import java.util.List;

/**
 * What a criteria set says about a case on a date. Says met, not met or undetermined; clears
 * nobody.
 *
 * @param asOf the date decided for
 * @param criteriaSet the set used
 * @param outcome of the whole set
 * @param finding the tree of required criteria
 * @param informative findings that never change the outcome
 * @param cautions what the reader must keep in mind
 * @param looks how often the knee was tested shortly before
 */
public record Decision(
    LocalDate asOf,
    CriteriaSet criteriaSet,
    Truth outcome,
    Finding finding,
    List<Finding> informative,
    List<Caution> cautions,
    RepeatLooks looks) {
  /** Characters that the titles of one outcome may take in a summary; its longest is 1 000. */
  private static final int ROOM = 420;

  public Decision {
    informative = List.copyOf(informative);
    cautions = List.copyOf(cautions);
  }

  /** Ids of the required single criteria with an outcome, in the order of the set. */
  public List<String> required(Truth outcome) {
    return finding.ids(outcome);
  }

  /**
   * The outcome in words: how many of the required criteria are met, and the titles of those that
   * are not, as many as there is room for.
   */
  public String summary() {
    List<String> met = titles(Truth.MET);
    List<String> notMet = titles(Truth.NOT_MET);
    List<String> undetermined = titles(Truth.UNDETERMINED);
    String counts =
        met.size()
            + " of "
            + (met.size() + notMet.size() + undetermined.size())
            + " required criteria are met."
            + listed(notMet, "not met")
            + listed(undetermined, "undetermined");
    return switch (outcome) {
      case MET -> "Criteria met: " + counts;
      case NOT_MET -> "Criteria not met: " + counts;
      case UNDETERMINED -> "Undetermined: " + counts;
    };
  }

  private List<String> titles(Truth outcome) {
    return finding.leaves().filter(leaf -> leaf.truth() == outcome).map(Finding::title).toList();
  }

  private static String listed(List<String> titles, String words) {
    return titles.isEmpty()
        ? ""
        : " " + titles.size() + " " + words + ": " + Listed.within(ROOM, titles) + ".";
  }
}
