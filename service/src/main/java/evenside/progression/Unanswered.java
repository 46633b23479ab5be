package evenside.progression;

/**
 * Something not known that a step up waits for.
 *
 * @param input code of the input
 * @param question what to ask
 * @param session the session it belongs to
 */
public record Unanswered(String input, String question, String session) {}
