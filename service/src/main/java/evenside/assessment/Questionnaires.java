package evenside.assessment;

import evenside.battery.Battery;
import evenside.battery.FilledIn;
import evenside.measure.Aggregation;
import evenside.measure.Aspect;
import evenside.measure.Gap;
import evenside.measure.Input;
import evenside.measure.Measured;
import evenside.measure.Protocol;
import evenside.measure.Value;
import evenside.questionnaire.Instrument;
import evenside.questionnaire.Outcome;
import evenside.questionnaire.ScoreOrigin;
import java.util.ArrayList;
import java.util.List;

/**
 * The questionnaires of one battery.
 *
 * @param scores every score, or why there is none
 * @param measured the scores as evidence
 * @param gaps those that could not be scored
 */
record Questionnaires(List<ScoreOrigin> scores, List<Measured> measured, List<Gap> gaps) {
  static Questionnaires of(Battery battery) {
    List<ScoreOrigin> scores = new ArrayList<>();
    List<Measured> measured = new ArrayList<>();
    List<Gap> gaps = new ArrayList<>();
    for (FilledIn filledIn : battery.questionnaires()) {
      for (Outcome outcome : filledIn.sheet().outcomes()) {
        ScoreOrigin origin = ScoreOrigin.of(filledIn.sheet(), outcome);
        scores.add(origin);
        if (outcome instanceof Outcome.Scored scored) {
          measured.add(measured(battery, filledIn.pointer(), scored, origin));
        } else if (outcome instanceof Outcome.NotScorable open) {
          gaps.add(gap(battery, open));
        }
      }
    }
    return new Questionnaires(scores, measured, gaps);
  }

  private static Measured measured(
      Battery battery, String pointer, Outcome.Scored scored, ScoreOrigin origin) {
    Value value = Value.Amount.of(scored.score(), Instrument.UNIT);
    Input input =
        new Input(
            battery.id(),
            pointer,
            scored.measure(),
            null,
            false,
            value,
            Protocol.NONE,
            Aggregation.SINGLE,
            origin,
            battery.performedOn());
    return new Measured(
        scored.measure(),
        Aspect.VALUE,
        value,
        Protocol.NONE,
        battery.performedAt().toInstant(),
        battery.performedOn(),
        List.of(input),
        null);
  }

  private static Gap gap(Battery battery, Outcome.NotScorable open) {
    return new Gap(
        open.measure(),
        null, // the whole measure stays open
        Gap.Reason.NOT_SCORABLE,
        open.count().toString(),
        Protocol.NONE,
        battery.performedAt().toInstant(),
        battery.performedOn());
  }
}
