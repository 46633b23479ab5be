package evenside.load;

import evenside.training.Contacts;
import evenside.training.Drill;
import evenside.training.Entry;
import evenside.training.Strength;
import java.util.Collection;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Volume of strength and jumping work.
 *
 * <p>Shape: tonnage = repetitions × load; adherence = repetitions done / planned × 100, kept above
 * 100; contacts as {@link Contacts} counts them.
 *
 * <p>Source: common practice.
 */
public final class Volume {
  private Volume() {}

  /** Load moved in all, in kg; not known where an exercise states no load. */
  public static Figure tonnage(Collection<Strength> exercises) {
    double sum = 0;
    for (Strength exercise : exercises) {
      Double load = exercise.completed().loadKg();
      if (load == null) {
        return Figure.none("kg", Figure.NOT_RECORDED);
      }
      sum += exercise.completed().total() * load;
    }
    return Figure.of(sum, "kg");
  }

  /** Repetitions done in percent of those planned; not known without a plan. */
  public static Figure adherence(Collection<Strength> exercises) {
    long planned = 0;
    long done = 0;
    for (Strength exercise : exercises) {
      Strength.@Nullable Plan plan = exercise.planned();
      if (plan != null) {
        planned += plan.total();
        done += exercise.completed().total();
      }
    }
    return planned == 0
        ? Figure.none("%", Figure.NOT_RECORDED)
        : Figure.of(100.0 * done / planned, "%");
  }

  /** Contacts of all drills. */
  public static Contacts contacts(List<Entry.Training> trainings) {
    return trainings.stream()
        .flatMap(training -> training.drills().stream())
        .map(Drill::completed)
        .reduce(Contacts.NONE, Contacts::plus);
  }
}
