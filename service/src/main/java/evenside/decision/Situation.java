package evenside.decision;

import evenside.criteria.CriteriaSet;
import evenside.criteria.Finding;
import evenside.knee.KneeCase;
import evenside.measure.Evidence;
import java.util.List;

/**
 * All that a caution may look at.
 *
 * @param kneeCase the case
 * @param set the criteria set
 * @param evidence what the batteries gave
 * @param leaves every single finding, required and informative
 * @param looks how often the knee was tested shortly before
 */
record Situation(
    KneeCase kneeCase,
    CriteriaSet set,
    Evidence evidence,
    List<Finding> leaves,
    RepeatLooks looks) {}
