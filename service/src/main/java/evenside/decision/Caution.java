package evenside.decision;

import org.jspecify.annotations.Nullable;

/**
 * Something the reader of a decision must keep in mind.
 *
 * @param code stable; the list grows
 * @param text in words
 * @param urgent true if the person should be seen by a clinician now
 * @param source citation, or null
 */
public record Caution(String code, String text, boolean urgent, @Nullable String source) {}
