package evenside.document;

import evenside.decision.Caution;
import evenside.decision.Engine;
import evenside.load.HoldReport;
import evenside.load.LoadReport;
import evenside.progression.Advice;
import evenside.progression.Hit;
import evenside.progression.InputCatalogue;
import evenside.progression.Known;
import evenside.progression.Progression;
import evenside.progression.Unanswered;
import evenside.signs.EffusionGrade;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Advice on the next training, as JSON. */
public final class AdviceDocument {
  private final InputCatalogue inputs;

  public AdviceDocument(InputCatalogue inputs) {
    this.inputs = inputs;
  }

  /**
   * Everything that was found.
   *
   * @param caseId the case, or null for one that is not recorded
   * @param advice what the rules gave
   * @param cautions what the reader must keep in mind
   * @param load what was trained, in numbers
   * @param holds core holds beside their norms
   */
  public record Found(
      String schemaVersion,
      @Nullable String caseId,
      Advice advice,
      List<Caution> cautions,
      LoadReport load,
      List<HoldReport> holds) {}

  /** Equal for equal records, with no time of day. */
  public Document of(Found found) {
    return Document.written(json -> write(json, found, found.advice()));
  }

  private void write(CanonicalWriter json, Found found, Advice advice) {
    json.object().put("asOf", advice.asOf()).putIfAny("caseId", found.caseId());
    DecisionDocument.cautions(json.name("cautions"), found.cautions());
    json.put("clinicianReview", !advice.reviewReasons().isEmpty());
    json.put("engineVersion", Engine.VERSION);
    LoadDocument.write(json.name("load"), found.load(), found.holds());
    json.put("message", advice.message()).put("outcome", advice.outcome().code());
    json.name("progressions")
        .array(advice.progressions(), (to, looked) -> progression(to, looked, advice));
    json.put("redFlagsComplete", advice.redFlagsComplete());
    json.name("reviewReasons").texts(advice.reviewReasons());
    json.put("schemaVersion", found.schemaVersion()).put("sessionsUsed", advice.entries());
    json.name("standing").array(advice.standing(), this::hit);
    json.name("unanswered").array(advice.unanswered(), AdviceDocument::unanswered);
    advice.urgency().ifPresent(urgency -> json.put("urgency", urgency.code()));
    json.name("work").array(advice.work(), this::work);
    json.end();
  }

  private static void progression(CanonicalWriter json, Progression looked, Advice advice) {
    json.object().put("counted", advice.counted().contains(looked.name())).put("id", looked.id());
    json.put("sha256", looked.sha256()).put("version", looked.version()).end();
  }

  private void work(CanonicalWriter json, Advice.Work work) {
    Progression progression = work.progression();
    json.object().put("code", work.key().code()).put("family", work.key().family());
    json.put("floorReached", work.floorReached());
    json.name("hints")
        .array(progression == null ? List.of() : progression.hints(), AdviceDocument::hint);
    json.put("lastOn", work.lastOn()).put("lastSession", work.lastSession());
    if (work.level() > 0) {
      json.put("level", work.level());
    }
    if (work.next() != null) {
      next(json.name("next"), work.next());
    }
    json.put("outcome", work.outcome().code());
    json.put("progressionCompleted", work.progressionCompleted());
    json.name("reasons").array(work.reasons(), this::hit);
    if (work.key().side() != null) {
      json.put("side", work.key().side().code());
    }
    json.name("unanswered").array(work.unanswered(), AdviceDocument::unanswered);
    if (progression != null) {
      json.put("version", progression.version());
    }
    json.end();
  }

  private static void hint(CanonicalWriter json, Progression.Hint hint) {
    json.object().put("mark", hint.mark()).put("text", hint.text()).end();
  }

  static void next(CanonicalWriter json, Advice.Next next) {
    json.object().put("dose", next.dose()).put("earliestOn", next.earliestOn());
    if (next.level() > 0) {
      json.put("level", next.level());
    }
    json.put("restDays", next.restDays()).end();
  }

  private void hit(CanonicalWriter json, Hit hit) {
    json.object().put("counted", hit.counted());
    json.name("inputs").array(hit.inputs(), this::seen);
    json.put("mark", hit.rule().mark()).put("outcome", hit.outcome().code());
    json.put("progression", hit.progression().id()).put("rule", hit.rule().id());
    json.put("session", hit.session()).putIfAny("source", hit.rule().source());
    json.put("text", hit.text());
    if (hit.rule().urgency() != null) {
      json.put("urgency", hit.rule().urgency().code());
    }
    json.put("version", hit.progression().version()).end();
  }

  private void seen(CanonicalWriter json, Hit.Seen seen) {
    json.object();
    if (seen.value() instanceof Known.Range range && !range.isExact()) {
      between(json, range);
    }
    json.put("input", seen.input()).name("sessions").texts(seen.sessions());
    value(json, seen);
    json.end();
  }

  private void value(CanonicalWriter json, Hit.Seen seen) {
    Known value = seen.value();
    if (value instanceof Known.Flag flag) {
      json.put("value", flag.holds());
    } else if (value instanceof Known.Choice choice) {
      json.put("value", choice.word());
    } else if (value instanceof Known.Range range && range.isExact()) {
      boolean grade = inputs.get(seen.input()).kind() == InputCatalogue.Kind.GRADE;
      if (grade) {
        json.put("value", EffusionGrade.ofRank((int) range.low()).code());
      } else {
        json.put("value", range.low());
      }
    }
  }

  /** Half known: the bounds that are known. */
  private static void between(CanonicalWriter json, Known.Range range) {
    if (Double.isFinite(range.low())) {
      json.put("atLeast", range.low());
    }
    if (Double.isFinite(range.high())) {
      json.put("atMost", range.high());
    }
  }

  private static void unanswered(CanonicalWriter json, Unanswered one) {
    json.object().put("input", one.input()).put("question", one.question());
    json.put("session", one.session()).end();
  }
}
