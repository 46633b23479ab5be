package evenside.questionnaire;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.measure.Better;
import evenside.questionnaire.PublishedInstruments.Case;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * What holds for every published questionnaire. The ranges and directions are those of the
 * catalogue, which were written down from the published scoring rules, not from these formulas.
 */
class InstrumentLawsTest {
  private static final String CASES = "evenside.questionnaire.PublishedInstruments#cases";
  private static final int SHEETS = 200;

  @ParameterizedTest
  @MethodSource(CASES)
  void best_answers_give_the_best_end_of_the_range(Case one) {
    double best = one.score(extreme(one, one.measure().better() != Better.LOWER));
    double worst = one.score(extreme(one, one.measure().better() == Better.LOWER));
    boolean low = one.measure().better() == Better.LOWER;
    assertThat(best).isEqualTo(low ? one.measure().least() : one.measure().most());
    assertThat(worst).isEqualTo(low ? one.measure().most() : one.measure().least());
  }

  @ParameterizedTest
  @MethodSource(CASES)
  void exactly_enough_answers_are_scored_and_one_fewer_is_not(Case one) {
    for (Random random : randoms()) {
      List<@Nullable Double> answers = complete(one, random);
      leaveOut(answers, one.needed(), random);
      assertThat(one.outcome(answers)).isInstanceOf(Outcome.Scored.class);
      if (one.needed() > 1) {
        leaveOut(answers, one.needed() - 1, random);
        int all = one.score().items().size();
        assertThat(one.outcome(answers))
            .isEqualTo(
                new Outcome.NotScorable(
                    one.score().measure(), new Outcome.Count(one.needed() - 1, one.needed(), all)));
      }
    }
  }

  @ParameterizedTest
  @MethodSource(CASES)
  void no_answer_at_all_is_not_asked(Case one) {
    Sheet blank = new Sheet(one.instrument(), one.rule(), Map.of(), Map.of());
    assertThat(blank.computed(one.score())).isEmpty();
    assertThat(blank.outcomes()).isEmpty();
  }

  @ParameterizedTest
  @MethodSource(CASES)
  void score_lies_in_its_range_whatever_is_answered(Case one) {
    for (Random random : randoms()) {
      List<@Nullable Double> answers = complete(one, random);
      leaveOut(answers, one.needed(), random);
      assertThat(one.score(answers)).isBetween(one.measure().least(), one.measure().most());
    }
  }

  /** A higher scored answer moves the score always the same way, and always moves it. */
  @ParameterizedTest
  @MethodSource(CASES)
  void score_is_strictly_monotone_in_each_item(Case one) {
    for (int i = 0; i < one.score().items().size(); i++) {
      Item item = one.score().items().get(i);
      List<Double> ascending = item.allowed().stream().sorted().toList();
      double direction = 0;
      for (Random random : randoms().subList(0, 5)) {
        List<@Nullable Double> answers = complete(one, random);
        for (int k = 1; k < ascending.size(); k++) {
          answers.set(i, ascending.get(k - 1));
          double before = one.score(answers);
          answers.set(i, ascending.get(k));
          double moved = Math.signum(one.score(answers) - before);
          assertThat(moved).as("item %s", item.number()).isNotZero();
          assertThat(direction == 0 || direction == moved).isTrue();
          direction = moved;
        }
      }
    }
  }

  /** What is printed the other way round gives the same score once turned. */
  @ParameterizedTest
  @MethodSource(CASES)
  void turning_an_answer_twice_gives_it_back(Case one) {
    for (Item item : one.instrument().items()) {
      for (double answer : item.allowed()) {
        double turned = item.scored(answer, Coding.PRINTED);
        assertThat(item.scored(answer, Coding.SCORED)).isEqualTo(answer);
        assertThat(item.allows(turned)).as(item.number()).isTrue();
        assertThat(item.scored(turned, Coding.PRINTED)).isEqualTo(answer);
        assertThat(turned == answer || item.reversed()).isTrue();
      }
    }
  }

  @ParameterizedTest
  @MethodSource(CASES)
  void item_outside_the_score_changes_nothing(Case one) {
    List<Double> answers = extreme(one, true);
    double alone = one.score(answers);
    Map<String, Double> more = new java.util.HashMap<>();
    one.instrument().items().forEach(item -> more.put(item.number(), item.least()));
    for (int i = 0; i < answers.size(); i++) {
      more.put(one.score().items().get(i).number(), answers.get(i));
    }
    Sheet sheet = new Sheet(one.instrument(), one.rule(), more, Map.of());
    assertThat(sheet.computed(one.score()))
        .get()
        .extracting(outcome -> ((Outcome.Scored) outcome).score())
        .isEqualTo(alone);
  }

  /** The answers that push the score up, or down, item by item. */
  private static List<Double> extreme(Case one, boolean up) {
    List<Item> items = one.score().items();
    List<Double> answers = new ArrayList<>(items.stream().map(Item::least).toList());
    for (int i = 0; i < items.size(); i++) {
      double low = one.score(answers);
      answers.set(i, items.get(i).most());
      boolean raises = one.score(answers) > low;
      answers.set(i, raises == up ? items.get(i).most() : items.get(i).least());
    }
    return answers;
  }

  private static List<@Nullable Double> complete(Case one, Random random) {
    List<@Nullable Double> answers = new ArrayList<>();
    for (Item item : one.score().items()) {
      answers.add(item.allowed().get(random.nextInt(item.allowed().size())));
    }
    return answers;
  }

  private static void leaveOut(List<@Nullable Double> answers, int keep, Random random) {
    List<Integer> given = new ArrayList<>();
    for (int i = 0; i < answers.size(); i++) {
      if (answers.get(i) != null) {
        given.add(i);
      }
    }
    Collections.shuffle(given, random);
    given.subList(keep, given.size()).forEach(index -> answers.set(index, null));
  }

  private static List<Random> randoms() {
    List<Random> randoms = new ArrayList<>();
    for (int i = 0; i < SHEETS; i++) {
      randoms.add(new Random(i));
    }
    return randoms;
  }
}
