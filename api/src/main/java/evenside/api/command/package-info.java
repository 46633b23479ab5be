/**
 * The command line: {@link evenside.api.command.Main}, one class a command, and what they share.
 * Each prints for a person and ends with 0, 1 (something is wrong with what it looked at) or 2 (it
 * could not look).
 */
@NullMarked
package evenside.api.command;

import org.jspecify.annotations.NullMarked;
