package evenside.criteria;

import evenside.quantity.Quantity;
import java.time.LocalDate;
import java.util.Objects;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * What would meet a criterion that is not met.
 *
 * @param words the text; worked out when it is asked for, since many findings are never shown
 * @param comparator how the quantity is meant, or null
 * @param quantity in the test's own unit, or null
 * @param operatedLeg true if the quantity is the operated leg's
 * @param date from which day a time criterion is met, or null
 */
public record ToMeet(
    Supplier<String> words,
    @Nullable Comparator comparator,
    @Nullable Quantity quantity,
    boolean operatedLeg,
    @Nullable LocalDate date) {

  /** In words. */
  public String text() {
    return words.get();
  }

  /** The same where even that leaves the criterion undetermined; nothing is added for no reason. */
  ToMeet leftOpenBy(Finding.@Nullable Reason doubt) {
    return doubt == null
        ? this
        : new ToMeet(
            () -> text() + "; it is undetermined even then, as " + doubt.text(),
            comparator,
            quantity,
            operatedLeg,
            date);
  }

  /** Equal if it says the same. */
  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof ToMeet that
        && comparator == that.comparator
        && Objects.equals(quantity, that.quantity)
        && operatedLeg == that.operatedLeg
        && Objects.equals(date, that.date)
        && text().equals(that.text());
  }

  @Override
  public int hashCode() {
    return Objects.hash(comparator, quantity, operatedLeg, date);
  }
}
