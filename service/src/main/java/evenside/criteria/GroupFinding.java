package evenside.criteria;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The result of a group of criteria.
 *
 * @param criterion the group
 * @param required false if shown for information only
 * @param truth the outcome, or null if none of its criteria is for this person
 * @param of the findings it joins
 */
record GroupFinding(
    Criterion.Group criterion, boolean required, @Nullable Truth truth, List<Finding> of)
    implements Finding {
  GroupFinding {
    of = List.copyOf(of);
  }

  @Override
  public void addLeaves(List<Finding> leaves) {
    for (Finding finding : of) {
      finding.addLeaves(leaves);
    }
  }

  @Override
  public void addIds(Truth outcome, List<String> ids) {
    for (Finding finding : of) {
      finding.addIds(outcome, ids);
    }
  }
}
