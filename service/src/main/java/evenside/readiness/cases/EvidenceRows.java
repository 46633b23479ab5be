package evenside.readiness.cases;

import evenside.assessment.AssessedBattery;
import evenside.measure.Aspect;
import evenside.measure.Gap;
import evenside.measure.Measured;
import evenside.measure.Protocol;
import evenside.measure.Value;
import evenside.store.evidence.EvidenceRow;
import evenside.store.evidence.FiledNumber;
import evenside.trend.Series;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * What a battery is filed under, so that the newest number for a criterion is found without reading
 * every battery of the case. Gaps are filed too: an explained absence is an answer.
 */
public final class EvidenceRows {
  private EvidenceRows() {}

  static List<EvidenceRow> of(AssessedBattery assessed) {
    Set<EvidenceRow> rows = new LinkedHashSet<>();
    assessed
        .measured()
        .forEach(m -> rows.add(row(m.measure(), m.aspect().code(), m.protocol(), number(m))));
    assessed
        .gaps()
        .forEach(
            gap -> rows.add(row(gap.measure(), aspect(gap), gap.protocol(), Optional.empty())));
    return List.copyOf(rows);
  }

  /** Amounts are filed as they are and grades by their rank; facts have no number. */
  private static Optional<FiledNumber> number(Measured measured) {
    if (measured.value() instanceof Value.Amount amount) {
      return Optional.of(filed(measured, amount.quantity().value(), amount.quantity().unit()));
    }
    return measured.value() instanceof Value.Grade grade
        ? Optional.of(filed(measured, grade.grade().rank(), Series.RANK))
        : Optional.empty();
  }

  private static FiledNumber filed(Measured measured, double amount, String unit) {
    return new FiledNumber(amount, unit, Way.of(measured).text(), measured.performedOn());
  }

  private static String aspect(Gap gap) {
    Aspect aspect = gap.aspect();
    if (aspect == null) {
      return EvidenceRow.NOT_PERFORMED;
    }
    return gap.isNotPerformed() ? EvidenceRow.notPerformed(aspect.code()) : absent(aspect);
  }

  /** What the explained absence of a number is filed under. */
  public static String absent(Aspect aspect) {
    return "no-" + aspect.code();
  }

  private static EvidenceRow row(
      String measure, String aspect, Protocol protocol, Optional<FiledNumber> number) {
    return new EvidenceRow(
        measure,
        aspect,
        term(protocol, Protocol.MODE, String.class),
        term(protocol, Protocol.SPEED, Double.class),
        term(protocol, Protocol.ANGLE, Double.class),
        term(protocol, Protocol.CONTEXT, String.class),
        number);
  }

  private static <T> Optional<T> term(Protocol protocol, String name, Class<T> type) {
    return Optional.ofNullable(protocol.terms().get(name)).map(type::cast);
  }
}
