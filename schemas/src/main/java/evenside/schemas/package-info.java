/**
 * The published contract: reads JSON strictly, and names every fault of a document.
 *
 * <p>{@link evenside.schemas.StrictJson} turns bytes into a tree or says why not ({@link
 * evenside.schemas.NotJson}). {@link evenside.schemas.Contract} holds the published files and
 * checks a tree against the schema of its kind; what is wrong comes as {@link
 * evenside.schemas.Fault}s. No type here knows what a hop or a knee is.
 */
@NullMarked
package evenside.schemas;

import org.jspecify.annotations.NullMarked;
