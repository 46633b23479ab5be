package evenside.criteria;

import evenside.measure.Evidence;
import evenside.measure.Value;
import evenside.quantity.Quantity;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;

/**
 * Calendar time from surgery to the date decided for.
 *
 * <p>Shape: met from surgery date + n calendar months (or weeks) on; months are counted on the
 * calendar, not as 30 days, as the papers do.
 *
 * <p>Unit: mo or wk.
 *
 * <p>Source: common practice of the cited papers.
 *
 * @param about id, title, citation
 * @param comparator at least, or more than
 * @param bound months or weeks
 * @param unit {@code mo} or {@code wk}
 */
public record TimeSinceSurgery(About about, Comparator comparator, int bound, String unit)
    implements Criterion.Leaf {

  @Override
  public String type() {
    return "time";
  }

  @Override
  public Bound asked() {
    return new Bound(comparator, Value.Amount.of(bound, unit));
  }

  @Override
  public Finding judge(Evidence evidence, boolean required) {
    LocalDate first = firstDay(evidence.surgeryDate());
    boolean met = !evidence.asOf().isBefore(first);
    long margin = ChronoUnit.DAYS.between(first, evidence.asOf());
    Value elapsed =
        Value.Amount.of((double) elapsed(evidence.surgeryDate(), evidence.asOf()), unit);
    return new SingleFinding(
        this,
        required,
        Truth.of(met),
        elapsed,
        new Quantity((double) margin, "d"),
        met ? null : new ToMeet(() -> "from " + first + " on", null, null, false, first),
        met ? null : new Finding.Reason("short-of-bound", tooEarly(-margin)),
        List.of(),
        List.of());
  }

  private static String tooEarly(long days) {
    return days + (days == 1 ? " day too early" : " days too early");
  }

  private LocalDate firstDay(LocalDate surgery) {
    LocalDate full = after(surgery, bound);
    return comparator == Comparator.ABOVE ? full.plusDays(1) : full;
  }

  private LocalDate after(LocalDate surgery, long count) {
    return unit.equals("wk") ? surgery.plusWeeks(count) : surgery.plusMonths(count);
  }

  /** Complete months or weeks; 31 August to 28 February counts as six months, as firstDay does. */
  private long elapsed(LocalDate surgery, LocalDate day) {
    ChronoUnit count = unit.equals("wk") ? ChronoUnit.WEEKS : ChronoUnit.MONTHS;
    long complete = count.between(surgery, day);
    return after(surgery, complete + 1).isAfter(day) ? complete : complete + 1;
  }
}
