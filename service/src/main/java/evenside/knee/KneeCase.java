package evenside.knee;

import evenside.limb.Side;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * One reconstructed knee of one person, under a pseudonymous reference.
 *
 * @param surgeryDate day of the reconstruction
 * @param operatedSide side of the reconstructed knee
 * @param graft code of the graft
 * @param graftHarvestSide side it was taken from, or null for the operated one or not stated
 * @param revision true if this ligament had been reconstructed before
 * @param concomitant codes of what else was done
 * @param otherKnee code of the other knee's history
 * @param sex as the criteria use it
 * @param birthYear calendar year
 * @param sportLevel {@code level-1} to {@code level-3}, {@code none}, or null if not stated
 * @param standard recreational, competitive, professional, or null if not stated
 * @param surgeonLimits what the surgeon does not allow for now
 */
public record KneeCase(
    LocalDate surgeryDate,
    Side operatedSide,
    String graft,
    @Nullable Side graftHarvestSide,
    boolean revision,
    Set<String> concomitant,
    String otherKnee,
    Sex sex,
    int birthYear,
    @Nullable String sportLevel,
    @Nullable String standard,
    List<SurgeonLimit> surgeonLimits) {
  public KneeCase {
    concomitant = Set.copyOf(concomitant);
    surgeonLimits = List.copyOf(surgeonLimits);
  }

  /**
   * A limit set by the surgeon.
   *
   * @param limit code
   * @param until last day it holds, or null until lifted
   */
  public record SurgeonLimit(String limit, @Nullable LocalDate until) {
    public boolean holdsOn(LocalDate day) {
      return until == null || !day.isAfter(until);
    }
  }

  /**
   * Whether a test of a day shows the knee as it was before the surgery: one of its own day too, as
   * nobody is tested for strength or hops after it.
   */
  public boolean isBeforeSurgery(LocalDate day) {
    return !day.isAfter(surgeryDate);
  }

  /** What the surgeon does not allow on a day, in words. */
  public List<String> limitsOn(LocalDate day) {
    return surgeonLimits.stream()
        .filter(limit -> limit.holdsOn(day))
        .map(limit -> limit.limit().replace('-', ' '))
        .toList();
  }

  /** True if nothing at all is known or suspected of the other knee. */
  public boolean otherKneeWithoutHistory() {
    return otherKnee.equals("none");
  }

  /**
   * What the other leg is worth as a yardstick: comparing with one that is not sound cannot show
   * that this leg has no deficit. An unknown history counts as sound here and is pointed out.
   *
   * <p>Source: the cited cohorts enrolled primary, unilateral reconstructions; symmetry is not
   * valid with a previous or current injury of the other knee. For a graft taken from the other
   * leg: {@link Yardstick#GRAFT_TAKEN}.
   */
  public Yardstick otherLeg() {
    if (!otherKneeWithoutHistory() && !otherKnee.equals("unknown")) {
      return Yardstick.OWN_HISTORY;
    }
    return graftFromOtherLeg() ? Yardstick.GRAFT_TAKEN : Yardstick.SOUND;
  }

  /** True if the graft was taken from the other leg. */
  public boolean graftFromOtherLeg() {
    return graftHarvestSide == operatedSide.opposite();
  }

  public boolean hadMeniscalRepair() {
    return concomitant.contains("medial-meniscus-repair")
        || concomitant.contains("lateral-meniscus-repair");
  }
}
