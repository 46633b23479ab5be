/**
 * What a database is: H2 and PostgreSQL, how each is opened, migrated, synced and shared, and how
 * it fails.
 */
@NullMarked
package evenside.store.database;

import org.jspecify.annotations.NullMarked;
