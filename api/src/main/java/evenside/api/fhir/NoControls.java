package evenside.api.fhir;

import org.jspecify.annotations.Nullable;
import tools.jackson.core.SerializableString;
import tools.jackson.core.io.CharacterEscapes;
import tools.jackson.core.io.SerializedString;

/**
 * Writes the replacement character for what a string of FHIR must not hold: "Strings SHALL NOT
 * contain Unicode character points below 32, except for u0009 (horizontal tab), u000D (carriage
 * return) and u000A (line feed)" (R4, section 2.24.0.1; from memory). Texts that people wrote may
 * hold them, since JSON allows it.
 */
final class NoControls extends CharacterEscapes {
  private static final long serialVersionUID = 1;
  private static final SerializableString REPLACEMENT = new SerializedString("\uFFFD");

  private final int[] escapes = standardAsciiEscapesForJSON();

  NoControls() {
    for (char c = 0; c < ' '; c++) {
      if (c != '\t' && c != '\n' && c != '\r') {
        escapes[c] = ESCAPE_CUSTOM;
      }
    }
  }

  @Override
  public int[] getEscapeCodesForAscii() {
    return escapes.clone();
  }

  /** Asked for every character beyond ASCII too, which stays as it is. */
  @Override
  public @Nullable SerializableString getEscapeSequence(int character) {
    return character < ' ' ? REPLACEMENT : null;
  }
}
