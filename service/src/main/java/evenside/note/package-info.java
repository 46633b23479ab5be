/**
 * Signed text that outlives the program: {@link evenside.note.SignedNote} (C2SP signed-note),
 * {@link evenside.note.Checkpoint} (C2SP tlog-checkpoint), {@link evenside.note.VerifierKey} lines
 * and the {@link evenside.note.SigningKey} behind them. Ed25519 is Bouncy Castle's.
 */
@NullMarked
package evenside.note;

import org.jspecify.annotations.NullMarked;
