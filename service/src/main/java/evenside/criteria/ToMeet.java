package evenside.criteria;

import evenside.quantity.Quantity;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * What would meet a criterion that is not met.
 *
 * @param text in words
 * @param comparator how the quantity is meant, or null
 * @param quantity in the test's own unit, or null
 * @param operatedLeg true if the quantity is the operated leg's
 * @param date from which day a time criterion is met, or null
 */
public record ToMeet(
    String text,
    @Nullable Comparator comparator,
    @Nullable Quantity quantity,
    boolean operatedLeg,
    @Nullable LocalDate date) {}
