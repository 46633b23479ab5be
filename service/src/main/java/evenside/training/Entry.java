package evenside.training;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** What an entry of the training record says. */
public sealed interface Entry {
  /**
   * A unit of training.
   *
   * @param running runs
   * @param strength strength exercises, one per exercise and side
   * @param core holds, one per exercise and side
   * @param drills agility and jumping
   * @param minutes how long the whole unit took, or null
   * @param effort rating of the whole unit, 0 to 10, or null
   * @param response the knee's response as far as known with this entry
   * @param redFlags answers to the warning questions
   * @param programmesCompleted programmes the clinic calls completed with this unit
   */
  record Training(
      List<Running> running,
      List<Strength> strength,
      List<CoreHold> core,
      List<Drill> drills,
      @Nullable Double minutes,
      @Nullable Double effort,
      Response response,
      RedFlags redFlags,
      Set<String> programmesCompleted)
      implements Entry {
    public Training {
      running = List.copyOf(running);
      strength = List.copyOf(strength);
      core = List.copyOf(core);
      drills = List.copyOf(drills);
      programmesCompleted = Set.copyOf(programmesCompleted);
    }
  }

  /**
   * A look at the knee apart from training.
   *
   * @param completes the session whose response it completes
   */
  record KneeCheck(Optional<String> completes, Response response, RedFlags redFlags)
      implements Entry {}

  /** Days on which nothing was trained. */
  record RestDays(Set<LocalDate> days) implements Entry {
    public RestDays {
      days = Set.copyOf(days);
    }
  }

  /**
   * A clinician's statement that what called for a stop was looked into.
   *
   * @param clinician the clinic's reference
   * @param clears the entries looked into
   */
  record Clearance(String clinician, List<String> clears) implements Entry {
    public Clearance {
      clears = List.copyOf(clears);
    }
  }
}
