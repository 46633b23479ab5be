package evenside.progression;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What the rules say about the next training. Diagnoses nothing and clears nobody.
 *
 * @param asOf the date it is for
 * @param outcome the most cautious of all work; a stop for all while a red flag stands
 * @param message the outcome in words
 * @param redFlagsComplete true if every warning question of the last session was answered
 * @param standing red flags that no clinician has cleared
 * @param work advice for each progression, exercise or drill
 * @param unanswered what is not known, over all work
 * @param reviewReasons why a clinician should look at the course; empty if there is no reason
 * @param progressions the progressions looked at
 * @param counted names of those that counted
 * @param lastOn day of the newest session, or null
 * @param entries how many entries were looked at
 */
public record Advice(
    LocalDate asOf,
    Outcome outcome,
    String message,
    boolean redFlagsComplete,
    List<Hit> standing,
    List<Work> work,
    List<Unanswered> unanswered,
    List<String> reviewReasons,
    List<Progression> progressions,
    Set<String> counted,
    @Nullable LocalDate lastOn,
    int entries) {
  public Advice {
    standing = List.copyOf(standing);
    work = List.copyOf(work);
    unanswered = List.copyOf(unanswered);
    reviewReasons = List.copyOf(reviewReasons);
    progressions = List.copyOf(progressions);
    counted = Set.copyOf(counted);
  }

  /** How soon the person should be seen, if a red flag stands. */
  public Optional<Rule.Urgency> urgency() {
    return standing.stream()
        .flatMap(hit -> Optional.ofNullable(hit.rule().urgency()).stream())
        .min(Comparator.naturalOrder());
  }

  /** The advice for one progression or exercise. */
  public Optional<Work> work(String code) {
    return work.stream().filter(piece -> piece.key().code().equals(code)).findFirst();
  }

  /**
   * Advice for one progression, exercise or drill.
   *
   * @param key what it is for
   * @param progression the progression, or null without one
   * @param lastSession the newest session of it
   * @param lastOn its day
   * @param level its level, 0 without a progression
   * @param outcome what the rules say
   * @param next the next session, or null while there is none to advise
   * @param floorReached true if a step back was called for and there is no lower level
   * @param progressionCompleted true if the last level is done
   * @param reasons every rule that holds
   * @param unanswered what is not known
   */
  public record Work(
      WorkKey key,
      @Nullable Progression progression,
      String lastSession,
      LocalDate lastOn,
      int level,
      Outcome outcome,
      @Nullable Next next,
      boolean floorReached,
      boolean progressionCompleted,
      List<Hit> reasons,
      List<Unanswered> unanswered) {
    public Work {
      reasons = List.copyOf(reasons);
      unanswered = List.copyOf(unanswered);
    }
  }

  /**
   * The next session.
   *
   * @param level its level, 0 without a progression
   * @param dose what is done, in words
   * @param earliestOn the first day it may be done
   * @param restDays full days of rest before it
   */
  public record Next(int level, String dose, LocalDate earliestOn, int restDays) {}
}
