package evenside.criteria;

import evenside.knee.Sex;
import org.jspecify.annotations.Nullable;

/**
 * What every single criterion carries.
 *
 * @param id unique in its set
 * @param title what is asked
 * @param citation where the figure stands
 * @param verified true if the figure was read in its source
 * @param note what a reader must know, or null
 * @param onlyFor the sex the bound is for, or null for everybody
 */
public record About(
    String id,
    String title,
    Citation citation,
    boolean verified,
    @Nullable String note,
    @Nullable Sex onlyFor) {}
