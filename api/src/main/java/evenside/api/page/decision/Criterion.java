package evenside.api.page.decision;

import evenside.api.drawing.Drawing;
import evenside.api.drawing.Mark;
import evenside.api.page.Texts;
import java.util.List;
import java.util.Optional;

/**
 * One finding as a person reads it. Texts are empty where there is nothing to say.
 *
 * @param id code of the criterion
 * @param title what is asked
 * @param outcome how it stands, in words
 * @param mark the same as a mark
 * @param value what was found
 * @param bound what was asked
 * @param margin how far beyond or short
 * @param reason why it is not met or not judged
 * @param toMeet what would meet it
 * @param error how far the test may err, in words
 * @param nearBound true if the bound lies within the error
 * @param inputs the recorded numbers used
 * @param sources where the bound stands, and what to know of it
 * @param context what was published about this number in others
 * @param sides both sides drawn, if it compares them
 * @param strip the result drawn against its bound, if it is a number or a grade
 * @param smallStrip the same without words
 */
public record Criterion(
    String id,
    String title,
    String outcome,
    Mark mark,
    String value,
    String bound,
    String margin,
    String reason,
    String toMeet,
    String error,
    boolean nearBound,
    List<Used> inputs,
    List<String> sources,
    List<String> context,
    Optional<Drawing> sides,
    Optional<Drawing> strip,
    Optional<Drawing> smallStrip) {
  /**
   * One recorded number.
   *
   * @param side which side, in words; empty if the test has none
   * @param measure what was measured and how
   * @param value the number with its unit
   * @param day when
   * @param age how long before the as-of date
   * @param place battery and place inside it
   */
  public record Used(
      String side, String measure, String value, String day, String age, String place) {}

  /** Keeps its own copies. */
  public Criterion {
    inputs = List.copyOf(inputs);
    sources = List.copyOf(sources);
    context = List.copyOf(context);
  }

  /** False for one that is not for this person. */
  boolean judged() {
    return !outcome.equals(Texts.text("outcome.not-applicable"));
  }

  /** The drawing of its mark. */
  public Drawing drawnMark() {
    return mark.drawing();
  }
}
