package evenside.questionnaire;

import evenside.quantity.Decimals;
import java.util.List;

/**
 * How the answers become a score, one constant per published way. All take the answers that were
 * given, at least one and in the order of the score's items; whether they are enough is for the
 * {@link MissingRule} to say.
 */
public enum Formula {
  /**
   * The sum as a percentage of the largest sum.
   *
   * <p>Shape: {@code 100 * sum / largest sum of the answered items}, 0 to 100; not rounded here.
   *
   * <p>Unit: points of the items; result on the questionnaire's own scale.
   *
   * <p>Not computable: never, once enough items are answered.
   *
   * <p>Error: that of the questionnaire, in the catalogue of measurement errors.
   *
   * <p>Source: public worked example of the IKDC Subjective Knee Form (second-hand); Irrgang
   * (1998), J Bone Joint Surg Am 80:1132, for the Knee Outcome Survey (second-hand).
   *
   * <p>Differs: the IKDC form of 2001 codes items from 1 and takes {@code (sum - 18) / 87}; with
   * complete answers the number is the same. With missing ones it matters which are missing.
   */
  PERCENT_OF_MAXIMUM("percent-of-maximum") {
    @Override
    double raw(List<Answer> answers) {
      double largest = answers.stream().mapToDouble(answer -> answer.item().most()).sum();
      return 100 * total(answers) / largest;
    }
  },

  /**
   * One hundred less the percentage of the worst.
   *
   * <p>Shape: {@code 100 - mean * 100 / 4} for items of 0 (best) to 4 (worst), 0 to 100; not
   * rounded here.
   *
   * <p>Unit: points of the items; result on the questionnaire's own scale.
   *
   * <p>Not computable: never, once enough items are answered.
   *
   * <p>Error: none published that we know for use after reconstruction.
   *
   * <p>Source: KOOS scoring instruction of August 2012.
   *
   * <p>Differs: the rule of 1998 asks for more answered items; the formula is the same.
   */
  HUNDRED_LESS_PERCENT("hundred-less-percent") {
    @Override
    double raw(List<Answer> answers) {
      return 100 - PERCENT_OF_MAXIMUM.raw(answers);
    }
  },

  /**
   * The mean of the answers.
   *
   * <p>Shape: {@code sum / number of answers}; not rounded here.
   *
   * <p>Unit: points of the items; result on the items' own scale.
   *
   * <p>Not computable: never, once enough items are answered.
   *
   * <p>Error: that of the questionnaire, in the catalogue of measurement errors.
   *
   * <p>Source: Int J Sports Phys Ther, article 138310, for the ACL-RSI; Webster and Feller (2018)
   * for its short form (second-hand).
   *
   * <p>Differs: a secondary page sums the K-SES; its published important change of 1.6 to 4.1
   * (Piussi 2025) fits the mean. Both are given, under two codes.
   */
  MEAN("mean") {
    @Override
    double raw(List<Answer> answers) {
      return total(answers) / answers.size();
    }
  },

  /**
   * The sum of the answers.
   *
   * <p>Shape: {@code sum}.
   *
   * <p>Unit: points of the items; result on the questionnaire's own scale.
   *
   * <p>Not computable: unless every item is answered, since a sum over fewer is another scale.
   *
   * <p>Error: that of the questionnaire, in the catalogue of measurement errors.
   *
   * <p>Source: PMC10362729, supplementary table (Lysholm 1985); Binkley (1999), Phys Ther 79:371
   * (LEFS); Woby (2005), Pain 117:137 (TSK-11).
   *
   * <p>Differs: some studies show the LEFS as a percentage of 80, which is another number.
   */
  SUM("sum") {
    @Override
    double raw(List<Answer> answers) {
      return total(answers);
    }
  },

  /**
   * The one answer itself.
   *
   * <p>Shape: {@code answer}.
   *
   * <p>Unit: the item's own scale.
   *
   * <p>Not computable: without the answer.
   *
   * <p>Error: that of the questionnaire, in the catalogue of measurement errors.
   *
   * <p>Source: Adams (2012), J Orthop Sports Phys Ther 42:601, Table 5, for the global rating.
   *
   * <p>Differs: nothing known.
   */
  VALUE("value") {
    @Override
    double raw(List<Answer> answers) {
      return answers.get(0).value();
    }
  },

  /**
   * One level minus another, of the same person.
   *
   * <p>Shape: {@code first item - second item}, for the Tegner scale current minus pre-injury.
   *
   * <p>Unit: levels.
   *
   * <p>Not computable: without both.
   *
   * <p>Error: none published that we know.
   *
   * <p>Source: common practice, no source; that levels are neither averaged nor turned into
   * percentages is our reading of an ordered scale.
   *
   * <p>Differs: nothing known.
   */
  DIFFERENCE("difference") {
    @Override
    double raw(List<Answer> answers) {
      return answers.get(0).value() - answers.get(1).value();
    }
  };

  private final String code;

  Formula(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }

  /**
   * The formula with this code.
   *
   * @throws IllegalArgumentException if no formula has the code
   */
  public static Formula of(String code) {
    for (Formula formula : values()) {
      if (formula.code.equals(code)) {
        return formula;
      }
    }
    throw new IllegalArgumentException("formula " + code + " is not known");
  }

  /** The score, held to nine decimals. */
  double score(List<Answer> answers) {
    return Decimals.exact(raw(answers));
  }

  abstract double raw(List<Answer> answers);

  /** True if a score over fewer than all items would be another number. */
  boolean needsEveryItem() {
    return switch (this) {
      case SUM, VALUE, DIFFERENCE -> true;
      case PERCENT_OF_MAXIMUM, HUNDRED_LESS_PERCENT, MEAN -> false;
    };
  }

  private static double total(List<Answer> answers) {
    return answers.stream().mapToDouble(Answer::value).sum();
  }
}
