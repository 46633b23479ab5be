package evenside.progression;

import evenside.signs.EffusionGrade;
import evenside.training.Answer;
import evenside.training.RedFlags;
import evenside.training.Response;
import evenside.training.Response.Soreness;
import evenside.training.Response.WarmUp;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** What the knee showed with one bout, against what is usual for it by the bouts before. */
final class KneeInputs {
  private static final int HIGHEST_RANK = EffusionGrade.THREE_PLUS.rank();

  private final List<String> questions;
  private final List<Bout> before;
  private final Bout bout;

  /**
   * Looks at one bout.
   *
   * @param questions codes of the warning questions
   * @param before all bouts before, in order of time
   */
  KneeInputs(List<String> questions, List<Bout> before, Bout bout) {
    this.questions = questions;
    this.before = before;
    this.bout = bout;
  }

  /** The inputs, with the answers to the warning questions given. */
  Inputs with(RedFlags flags) {
    Inputs inputs = new Inputs(bout.ids());
    Response response = bout.response();
    redFlags(inputs, flags);
    inputs.number("extension-loss", response.extensionLossDeg());
    pain(inputs, response);
    soreness(inputs, response);
    effusion(inputs, response);
    return inputs;
  }

  private void redFlags(Inputs inputs, RedFlags flags) {
    boolean all = true;
    for (String question : questions) {
      Answer answer = flags.answer(question);
      if (answer == Answer.UNKNOWN) {
        all = false;
      } else {
        inputs.flag(question, answer == Answer.YES);
      }
    }
    inputs.flag("red-flags-answered", all);
    inputs.number("body-temperature", flags.temperature());
  }

  private void pain(Inputs inputs, Response response) {
    inputs.number("pain-before", response.pain().before());
    inputs.number("pain-worst", response.pain().worst());
    inputs.number("pain-after-one-hour", response.pain().afterOneHour());
    inputs.number("pain-next-morning", response.pain().nextMorning());
    inputs.number("pain-at-rest", response.pain().atRest());
    inputs.number("muscle-pain-worst", response.pain().muscleWorst());
    Integer morning = response.pain().nextMorning();
    inputs.flag("next-morning-answered", morning != null);
    UsualPain usual = UsualPain.before(bout.day(), before);
    inputs.put("pain-usual", usual.known(), usual.sessions());
    if (morning != null) {
      inputs.put(
          "pain-next-morning-above-usual",
          new Known.Range(morning - usual.known().high(), morning - usual.known().low()));
    }
    Integer weeks = UsualPain.weeksRising(bout, before);
    inputs.number("weeks-of-rising-pain", weeks);
  }

  private static void soreness(Inputs inputs, Response response) {
    Soreness soreness = response.soreness();
    boolean muscle = soreness.ofMuscleOnly();
    WarmUp warmUp = soreness.warmUp();
    if (warmUp != null) {
      String word = muscle ? WarmUp.NONE.name() : warmUp.name();
      inputs.word("knee-sore-warm-up", word.toLowerCase(Locale.ROOT));
    }
    inputs.flag("knee-sore-after-one-hour", ofKnee(soreness.afterOneHour(), muscle));
    inputs.flag("knee-sore-next-day", ofKnee(soreness.nextDay(), muscle));
    inputs.flag("swollen-next-morning", response.swollenNextMorning());
  }

  private static @Nullable Boolean ofKnee(@Nullable Boolean sore, boolean muscle) {
    return sore == null ? null : sore && !muscle;
  }

  private void effusion(Inputs inputs, Response response) {
    EffusionGrade now = response.effusion().now();
    inputs.flag("effusion-graded", now != null);
    inputs.grade("effusion-now", now);
    UsualEffusion usual = UsualEffusion.before(bout, before);
    EffusionGrade grade = usual.grade();
    if (grade != null) {
      inputs.put("effusion-usual", Known.number(grade.rank()), usual.sessions());
    }
    inputs.grade("effusion-worst", response.effusion().worst());
    rise(inputs, "effusion-rise-worst", response.effusion().worst(), grade);
    rise(inputs, "effusion-rise", now, grade);
    rise(inputs, "effusion-rise-after", response.effusion().after(), grade);
    rise(inputs, "effusion-rise-next-morning", response.effusion().nextMorning(), grade);
    inputs.number("effusion-visits-since-hold", UsualEffusion.visitsSinceHold(before));
  }

  /** With the usual grade unknown the rise is known as a range: the usual grade is one of five. */
  private static void rise(
      Inputs inputs, String name, @Nullable EffusionGrade seen, @Nullable EffusionGrade usual) {
    if (seen != null && usual != null) {
      inputs.number(name, seen.rank() - usual.rank());
    } else if (seen != null) {
      inputs.put(name, new Known.Range(seen.rank() - HIGHEST_RANK, seen.rank()));
    }
  }
}
