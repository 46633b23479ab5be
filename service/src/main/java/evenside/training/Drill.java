package evenside.training;

import org.jspecify.annotations.Nullable;

/**
 * One agility or jumping drill.
 *
 * @param drill code in the catalogue
 * @param programme the planned step, or null
 * @param planned planned contacts, or null
 * @param completed contacts done
 */
public record Drill(
    String drill, @Nullable Programme programme, @Nullable Contacts planned, Contacts completed) {}
