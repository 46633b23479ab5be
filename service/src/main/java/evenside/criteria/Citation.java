package evenside.criteria;

import org.jspecify.annotations.Nullable;

/**
 * Where a figure stands.
 *
 * @param key key of the source
 * @param text the source in full: authors, year, journal
 * @param doi digital object identifier, or null
 * @param place table, page or section, or null
 * @param printedAs how the source prints the rule where it differs from our form, or null
 */
public record Citation(
    String key,
    String text,
    @Nullable String doi,
    @Nullable String place,
    @Nullable String printedAs) {}
