package evenside.measure;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One number, grade or fact that criteria can look at.
 *
 * @param measure code of the measure
 * @param aspect which number of it
 * @param value what was seen
 * @param protocol how it was tested
 * @param performedAt instant of the battery
 * @param performedOn day of the battery at the clinic
 * @param inputs the recorded results it was made from
 * @param rescale how a bound turns back into the operated leg's unit; null where that says nothing
 */
public record Measured(
    String measure,
    Aspect aspect,
    Value value,
    Protocol protocol,
    Instant performedAt,
    LocalDate performedOn,
    List<Input> inputs,
    @Nullable Rescale rescale) {
  public Measured {
    inputs = List.copyOf(inputs);
  }

  /** How trials became the scores it was made from, which are joined alike. */
  public Aggregation aggregation() {
    return inputs.get(0).aggregation();
  }
}
