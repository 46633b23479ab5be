/**
 * What the log says, and what it never says. {@link evenside.api.log.LogForm} is how it looks,
 * {@link evenside.api.log.LogFields} all that a line may hold beside its sentence; a sentence of
 * another library is shown without what it was filled with, and a failure without its message, as
 * both may repeat what was sent.
 */
@NullMarked
package evenside.api.log;

import org.jspecify.annotations.NullMarked;
