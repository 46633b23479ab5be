package evenside.progression;

import evenside.quantity.Decimals;
import evenside.training.Contacts;
import evenside.training.CoreHold;
import evenside.training.Drill;
import evenside.training.Entry;
import evenside.training.Limb;
import evenside.training.PlannedLevel;
import evenside.training.Running;
import evenside.training.Strength;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BinaryOperator;
import org.jspecify.annotations.Nullable;

/**
 * What a training did, piece by piece. Where one training has a piece of work twice, the more
 * demanding and the less completed counts.
 */
final class Items {
  private static final List<String> SURFACES =
      List.of("treadmill", "track", "flat-road", "grass", "uneven", "hill");
  private static final List<String> PATHS = List.of("straight", "curves", "cutting");

  private Items() {}

  static List<Item> of(Entry.Training training) {
    List<Item> items = new ArrayList<>();
    training.running().forEach(run -> add(items, of(run)));
    training.strength().forEach(exercise -> add(items, of(exercise)));
    training.core().forEach(hold -> add(items, of(hold)));
    training.drills().forEach(drill -> add(items, of(drill)));
    return items;
  }

  private static void add(List<Item> items, Item item) {
    for (int i = 0; i < items.size(); i++) {
      if (items.get(i).key().equals(item.key())) {
        items.set(i, both(items.get(i), item));
        return;
      }
    }
    items.add(item);
  }

  private static Item both(Item a, Item b) {
    return new Item(
        a.key(),
        a.exercise(),
        a.level() >= b.level() ? a.progression() : b.progression(),
        a.percent() == null || b.percent() == null ? null : Math.min(a.percent(), b.percent()),
        harder(SURFACES, a.surface(), b.surface()),
        harder(PATHS, a.path(), b.path()),
        either(a.braceWorn(), b.braceWorn(), (x, y) -> x || y),
        either(a.overTarget(), b.overTarget(), Math::min),
        either(a.loadKg(), b.loadKg(), Math::max),
        either(a.cleanHolds(), b.cleanHolds(), (x, y) -> x && y),
        a.contacts().plus(b.contacts()));
  }

  private static @Nullable String harder(
      List<String> order, @Nullable String a, @Nullable String b) {
    return either(a, b, (x, y) -> order.indexOf(x) >= order.indexOf(y) ? x : y);
  }

  private static <T> @Nullable T either(@Nullable T a, @Nullable T b, BinaryOperator<T> both) {
    if (a == null || b == null) {
      return a == null ? b : a;
    }
    return both.apply(a, b);
  }

  private static Item of(Running run) {
    PlannedLevel progression = run.progression();
    String code = progression == null ? WorkKey.FREE_RUN : progression.id();
    return new Item(
        new WorkKey(WorkKey.RUNNING, code, null),
        code,
        progression,
        percent(run),
        run.surface(),
        run.path(),
        run.braceWorn(),
        null,
        null,
        null,
        Contacts.NONE);
  }

  /**
   * Distance or time run against the plan, or walked and run where the plan says no more; where
   * both are known the less completed counts.
   */
  private static @Nullable Double percent(Running run) {
    Running.Dose planned = run.planned();
    if (planned == null) {
      return null;
    }
    Running.Dose done = run.completed();
    Double metres = percentOf(done.runMetres(), planned.runMetres());
    Double minutes = percentOf(done.runMinutes(), planned.runMinutes());
    boolean plansRunning = planned.runMetres() != null || planned.runMinutes() != null;
    if (!plansRunning) {
      metres = percentOf(done.metres(), planned.metres());
      minutes = percentOf(done.minutes(), planned.minutes());
    }
    return either(metres, minutes, Math::min);
  }

  private static @Nullable Double percentOf(@Nullable Double done, @Nullable Double planned) {
    return done == null || planned == null || planned == 0 ? null : percent(done, planned);
  }

  private static Item of(Strength strength) {
    PlannedLevel progression = strength.progression();
    Strength.Plan plan = strength.planned();
    String code = progression == null ? strength.exercise() : progression.id();
    return new Item(
        key(WorkKey.STRENGTH, code, strength.side()),
        strength.exercise(),
        progression,
        plan == null ? null : percent((double) strength.completed().total(), (double) plan.total()),
        null,
        null,
        null,
        plan == null ? null : strength.completed().last() - plan.target(),
        strength.completed().loadKg(),
        null,
        Contacts.NONE);
  }

  private static Item of(CoreHold core) {
    CoreHold.Plan plan = core.planned();
    return new Item(
        key(WorkKey.CORE, core.exercise(), core.side()),
        core.exercise(),
        null,
        plan == null ? null : percent(held(core), planned(plan)),
        null,
        null,
        null,
        null,
        null,
        isClean(core),
        Contacts.NONE);
  }

  /** True if every hold reached its time in good form; null where either is not known. */
  private static @Nullable Boolean isClean(CoreHold core) {
    Boolean reached = core.allReached();
    Boolean formKept = core.formKept();
    if (reached == null || formKept == null) {
      return null;
    }
    return reached && formKept;
  }

  /** Each hold counts up to its planned time, so that a long one makes no short one good. */
  private static double held(CoreHold core) {
    double most = core.planned() == null ? Double.MAX_VALUE : core.planned().seconds();
    return core.holdSeconds().stream().mapToDouble(s -> Math.min(s, most)).sum() * core.times();
  }

  private static double planned(CoreHold.Plan plan) {
    return plan.holds() * plan.seconds() * plan.timesPerDay() * plan.days();
  }

  private static Item of(Drill drill) {
    PlannedLevel progression = drill.progression();
    Contacts planned = drill.planned();
    String code = progression == null ? WorkKey.DRILLS : progression.id();
    boolean counted = planned != null && planned.total() > 0;
    return new Item(
        new WorkKey(WorkKey.DRILLS, code, null),
        drill.drill(),
        progression,
        planned == null || !counted ? null : least(drill.completed(), planned),
        null,
        null,
        null,
        null,
        null,
        null,
        drill.completed());
  }

  private static double least(Contacts done, Contacts planned) {
    double both = planned.both() == 0 ? 100 : percent(done.both(), planned.both());
    double left = planned.left() == 0 ? 100 : percent(done.left(), planned.left());
    double right = planned.right() == 0 ? 100 : percent(done.right(), planned.right());
    return Math.min(both, Math.min(left, right));
  }

  private static WorkKey key(String family, String code, Limb side) {
    return new WorkKey(family, code, side);
  }

  private static double percent(double done, double planned) {
    return Math.min(100, Decimals.exact(100 * done / planned));
  }
}
