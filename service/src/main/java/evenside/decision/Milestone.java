package evenside.decision;

import org.jspecify.annotations.Nullable;

/**
 * A step on the way back to sport that criteria sets are for.
 *
 * @param code code
 * @param title in the trade's words
 * @param order place in the usual order
 * @param note what a reader must know, or null
 */
public record Milestone(String code, String title, int order, @Nullable String note) {}
