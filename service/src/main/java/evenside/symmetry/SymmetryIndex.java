package evenside.symmetry;

import evenside.quantity.Decimals;
import java.util.List;
import java.util.OptionalDouble;

/**
 * The published indices of difference between two legs. For scores above zero all but the last are
 * the limb symmetry index in other dress: they never order people of the same weaker side
 * differently, only their size, sign and reference differ, so a cut-off must be translated before
 * it is moved from one to another.
 *
 * <p>Here I is the operated leg and U the other; where less is better they change places first, so
 * that the weaker leg has the smaller number. All results in percent, never rounded. Not
 * computable: a denominator of zero or less.
 */
public enum SymmetryIndex {
  /**
   * Limb symmetry index, {@code 100 * I / U}.
   *
   * <p>Source: Reid (2007), Phys Ther 87:337–349.
   *
   * <p>Differs: depends on which leg is the reference (80 becomes 125 the other way round).
   */
  LIMB_SYMMETRY("limb-symmetry-index") {
    @Override
    double ofRatio(double r) {
      return 100 * r;
    }

    @Override
    double ratioAt(double index) {
      return index / 100;
    }
  },
  /**
   * Absolute limb symmetry index, {@code 100 * min / max}.
   *
   * <p>Source: Dingenen (2019), Knee, PMID 31431339, read second-hand.
   *
   * <p>Differs: hides which leg is weaker; keeps opposite signs from cancelling in a group mean.
   */
  ABSOLUTE_LIMB_SYMMETRY("absolute-limb-symmetry-index") {
    @Override
    double ofRatio(double r) {
      return 100 * Math.min(r, 1 / r);
    }

    @Override
    double ratioAt(double index) {
      return index / 100;
    }
  },
  /**
   * Deficit, {@code 100 * (1 - I / U)}.
   *
   * <p>Source: Kyritsis (2016), Br J Sports Med 50:946–951, prints its criterion as a deficit.
   *
   * <p>Differs: a deficit below 10 % is the strict index above 90 %, not 90 % or more.
   */
  DEFICIT("deficit") {
    @Override
    double ofRatio(double r) {
      return 100 * (1 - r);
    }

    @Override
    double ratioAt(double index) {
      return 1 - index / 100;
    }
  },
  /**
   * Bilateral strength asymmetry, {@code 100 * (stronger - weaker) / stronger}.
   *
   * <p>Source: Impellizzeri (2007), from memory.
   *
   * <p>Differs: as the absolute index; equals 100 minus it.
   */
  BILATERAL_STRENGTH_ASYMMETRY("bilateral-strength-asymmetry") {
    @Override
    double ofRatio(double r) {
      return 100 * (1 - Math.min(r, 1 / r));
    }

    @Override
    double ratioAt(double index) {
      return 1 - index / 100;
    }
  },
  /**
   * Symmetry index, {@code 100 * (U - I) / (0.5 * (U + I))}.
   *
   * <p>Source: Robinson (1987), J Manipulative Physiol Ther, from memory; equation read in BMC
   * Sports Sci Med Rehabil (2021), doi 10.1186/s13102-021-00355-4.
   *
   * <p>Differs: needs no reference leg; grows without limit where the values are near zero or of
   * mixed sign, so it is no use for angles and laxity.
   */
  ROBINSON("robinson-symmetry-index") {
    @Override
    double ofRatio(double r) {
      return 200 * (1 - r) / (1 + r);
    }

    @Override
    double ratioAt(double index) {
      return (200 - index) / (200 + index);
    }
  },
  /**
   * Asymmetry index over the sum, {@code 100 * (U - I) / (U + I)}.
   *
   * <p>Source: Bishop (2016), Strength Cond J, doi 10.1519/SSC.0000000000000264, formula from
   * memory.
   *
   * <p>Differs: half of Robinson's; {@code (2 U / (U + I) - 1) * 100} is the same number by another
   * name.
   */
  ASYMMETRY_OVER_SUM("asymmetry-index-over-sum") {
    @Override
    double ofRatio(double r) {
      return 100 * (1 - r) / (1 + r);
    }

    @Override
    double ratioAt(double index) {
      return (100 - index) / (100 + index);
    }
  },
  /**
   * Symmetry angle, {@code 100 * (45° - arctan(I / U)) / 90°}.
   *
   * <p>Source: Zifchock (2008), Gait Posture 27:622–627, formula from memory.
   *
   * <p>Differs: needs no reference leg and runs from -100 to 100; smaller in size than the others.
   */
  SYMMETRY_ANGLE("symmetry-angle") {
    @Override
    double ofRatio(double r) {
      return 100 * (45 - Math.toDegrees(Math.atan(r))) / 90;
    }

    @Override
    double ratioAt(double index) {
      return Math.tan(Math.toRadians(45 - 0.9 * index));
    }
  },
  /**
   * Log quotient, {@code 100 * ln(I / U)}.
   *
   * <p>Source: common practice for ratios; no source.
   *
   * <p>Differs: equal steps up and down are equal numbers, which suits trends.
   */
  LOG_QUOTIENT("log-quotient") {
    @Override
    double ofRatio(double r) {
      return 100 * Math.log(r);
    }

    @Override
    double ratioAt(double index) {
      return Math.exp(index / 100);
    }
  },
  /**
   * Normalised symmetry index: every trial of both legs scaled to {@code 1 + (x - min) / (max -
   * min)}, then Robinson's index of the scaled means.
   *
   * <p>Source: Gouwanda (2011) and Queen (2020), from memory.
   *
   * <p>Differs: depends on the smallest and largest of this very set of trials, so equal means give
   * different numbers; no cut-off can be translated, and it is unsuited to audit.
   *
   * <p>Not computable: no trials of a leg, or all trials equal.
   */
  NORMALISED("normalised-symmetry-index") {
    @Override
    public OptionalDouble of(Legs legs) {
      return normalised(legs.operatedTrials(), legs.otherTrials());
    }

    @Override
    public boolean translates() {
      return false;
    }

    @Override
    double ofRatio(double r) {
      throw new IllegalArgumentException(code() + " is no function of the ratio");
    }

    @Override
    double ratioAt(double index) {
      throw new IllegalArgumentException(code() + " is no function of the ratio");
    }
  };

  /**
   * Both legs of one test, turned so that more is better.
   *
   * @param operated score of the operated leg
   * @param other score of the other leg
   * @param operatedTrials the operated leg's trials that count
   * @param otherTrials the other leg's
   */
  public record Legs(
      double operated, double other, List<Double> operatedTrials, List<Double> otherTrials) {
    public Legs {
      operatedTrials = List.copyOf(operatedTrials);
      otherTrials = List.copyOf(otherTrials);
    }
  }

  private final String code;

  SymmetryIndex(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }

  /**
   * The index with this code.
   *
   * @throws IllegalArgumentException if no index has the code
   */
  public static SymmetryIndex named(String code) {
    for (SymmetryIndex index : values()) {
      if (index.code.equals(code)) {
        return index;
      }
    }
    throw new IllegalArgumentException("symmetry index " + code + " is not known");
  }

  /** The index in percent, or empty if a leg scored zero or less. */
  public OptionalDouble of(Legs legs) {
    return legs.operated() > 0 && legs.other() > 0
        ? OptionalDouble.of(Decimals.exact(ofRatio(legs.operated() / legs.other())))
        : OptionalDouble.empty();
  }

  /** True if a cut-off can be moved between this index and the limb symmetry index. */
  public boolean translates() {
    return true;
  }

  /**
   * What this index is where the limb symmetry index is as given.
   *
   * @param limbSymmetry percent, above zero
   * @throws IllegalArgumentException if this index does not translate
   */
  public double atLimbSymmetry(double limbSymmetry) {
    return Decimals.exact(ofRatio(limbSymmetry / 100));
  }

  /**
   * What the limb symmetry index is where this index is as given; for an index that hides the side,
   * the operated leg taken as the weaker.
   *
   * @throws IllegalArgumentException if this index does not translate
   */
  public double limbSymmetryAt(double index) {
    return Decimals.exact(100 * ratioAt(index));
  }

  abstract double ofRatio(double r);

  abstract double ratioAt(double index);

  private static OptionalDouble normalised(List<Double> operated, List<Double> other) {
    if (operated.isEmpty() || other.isEmpty()) {
      return OptionalDouble.empty();
    }
    double least =
        Math.min(
            operated.stream().min(Double::compare).orElseThrow(),
            other.stream().min(Double::compare).orElseThrow());
    double most =
        Math.max(
            operated.stream().max(Double::compare).orElseThrow(),
            other.stream().max(Double::compare).orElseThrow());
    if (most <= least) {
      return OptionalDouble.empty();
    }
    double i = scaledMean(operated, least, most);
    double u = scaledMean(other, least, most);
    return OptionalDouble.of(Decimals.exact(100 * (u - i) / (0.5 * (u + i))));
  }

  private static double scaledMean(List<Double> trials, double least, double most) {
    return trials.stream()
        .mapToDouble(x -> 1 + (x - least) / (most - least))
        .average()
        .orElseThrow();
  }
}
