/**
 * The record on disk: append-only rows in H2 or PostgreSQL.
 *
 * <p>{@link evenside.store.Store} opens the database and runs transactions; {@link
 * evenside.store.Reading} and {@link evenside.store.Writing} are what a transaction can do. Nothing
 * here changes a row, and {@link evenside.store.Erasing} alone removes any. What {@link
 * evenside.store.Store#write} returned is on disk.
 */
@NullMarked
package evenside.store;

import org.jspecify.annotations.NullMarked;
