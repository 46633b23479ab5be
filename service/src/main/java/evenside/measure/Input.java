package evenside.measure;

import evenside.limb.Side;
import evenside.questionnaire.ScoreOrigin;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * One recorded result that went into a number.
 *
 * @param batteryId the battery that holds it
 * @param pointer JSON Pointer of the result inside the battery
 * @param measure code of the measure
 * @param side the leg, or null if the test has none
 * @param operated true for the operated leg
 * @param value the score from the valid trials
 * @param protocol how it was tested
 * @param aggregation how the trials became the score
 * @param origin where a questionnaire's score comes from, or null for any other result
 * @param performedOn day of the battery at the clinic
 */
public record Input(
    String batteryId,
    String pointer,
    String measure,
    @Nullable Side side,
    boolean operated,
    Value value,
    Protocol protocol,
    Aggregation aggregation,
    @Nullable ScoreOrigin origin,
    LocalDate performedOn) {}
