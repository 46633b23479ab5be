package evenside.assessment;

import evenside.measure.Aggregation;
import evenside.measure.Gap;
import evenside.measure.Measure;
import evenside.measure.Protocol;
import org.jspecify.annotations.Nullable;

/**
 * Both legs on one test of one battery.
 *
 * @param pointer JSON Pointer of the operated leg's result, or of the only one
 * @param measure entry of the catalogue
 * @param protocol how it was tested
 * @param aggregation how the trials became the scores
 * @param operated score of the operated leg, or null
 * @param other score of the other leg, or null
 * @param symmetry percent, or null if it could not be computed
 * @param gap why there is no symmetry, or null
 */
public record SideComparison(
    String pointer,
    Measure measure,
    Protocol protocol,
    Aggregation aggregation,
    @Nullable Double operated,
    @Nullable Double other,
    @Nullable Double symmetry,
    @Nullable Gap gap) {}
