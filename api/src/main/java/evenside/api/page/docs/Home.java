package evenside.api.page.docs;

/**
 * What the landing page says of this instance.
 *
 * @param version version of the program
 * @param schemaVersion version of the schemas
 * @param ready true if requests can be served
 * @param ledger true if decisions enter a ledger
 */
public record Home(String version, String schemaVersion, boolean ready, boolean ledger) {}
