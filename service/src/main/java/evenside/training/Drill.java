package evenside.training;

import org.jspecify.annotations.Nullable;

/**
 * One agility or jumping drill.
 *
 * @param drill code in the catalogue
 * @param progression the planned level of a progression, or null
 * @param planned planned contacts, or null
 * @param completed contacts done
 */
public record Drill(
    String drill,
    @Nullable PlannedLevel progression,
    @Nullable Contacts planned,
    Contacts completed) {}
