package evenside.store.cohort;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;

/**
 * How long a case was followed.
 *
 * @param surgeryDate day of the surgery
 * @param firstMet the earliest date for which a decision on the milestone was met
 * @param lastTested when its newest battery was done
 */
public record Course(
    LocalDate surgeryDate, Optional<LocalDate> firstMet, Optional<Instant> lastTested) {}
