package evenside.document;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.Locale;

/**
 * Texts and numbers as the bytes that RFC 8785 gives them, one after another in a buffer that
 * grows.
 */
final class CanonicalBytes {
  private static final boolean[] PLAIN = plain();

  private byte[] out;
  private int length;

  /**
   * Nothing yet.
   *
   * @param size bytes to have room for at first
   */
  CanonicalBytes(int size) {
    this.out = new byte[size];
  }

  /** Forgets what was written; the room stays. */
  void clear() {
    length = 0;
  }

  byte[] copy() {
    return Arrays.copyOf(out, length);
  }

  /** Bytes that it has room for. */
  int size() {
    return out.length;
  }

  /** Bytes that are canonical already. */
  void bytes(byte[] bytes) {
    bytes(bytes, 0);
  }

  /** The end of bytes that are canonical already. */
  void bytes(byte[] bytes, int from) {
    int count = bytes.length - from;
    makeRoomFor(count);
    System.arraycopy(bytes, from, out, length, count);
    length += count;
  }

  /**
   * A text between quotes, with the shortest escapes.
   *
   * @throws IllegalArgumentException if it holds a lone surrogate
   */
  void text(String text) {
    int units = text.length();
    makeRoomFor(units + 2);
    byte[] to = out;
    int at = length;
    to[at++] = '"';
    for (int i = 0; i < units; i++) {
      char c = text.charAt(i);
      if (!isPlain(c)) {
        length = at;
        rest(text, i);
        single('"');
        return;
      }
      to[at++] = (byte) c;
    }
    to[at++] = '"';
    length = at;
  }

  /** A day, {@code 2026-08-19}, between quotes. */
  void day(LocalDate day) {
    int year = day.getYear();
    if (year < 1000 || year > 9999) {
      text(day.toString());
      return;
    }
    single('"');
    twoDigits(year / 100);
    twoDigits(year % 100);
    single('-');
    twoDigits(day.getMonthValue());
    single('-');
    twoDigits(day.getDayOfMonth());
    single('"');
  }

  private void twoDigits(int number) {
    single('0' + number / 10);
    single('0' + number % 10);
  }

  /**
   * A number as ECMAScript prints it.
   *
   * @throws IllegalArgumentException if it is not finite
   */
  void number(double number) {
    makeRoomFor(CanonicalNumber.LONGEST);
    length = CanonicalNumber.write(number, out, length);
  }

  void ascii(String text) {
    makeRoomFor(text.length());
    for (int i = 0; i < text.length(); i++) {
      out[length++] = (byte) text.charAt(i);
    }
  }

  void single(int unit) {
    makeRoomFor(1);
    out[length++] = (byte) unit;
  }

  /** True for a character that is its own byte. */
  private static boolean isPlain(char c) {
    return c < PLAIN.length && PLAIN[c];
  }

  private static boolean[] plain() {
    boolean[] plain = new boolean[0x80];
    Arrays.fill(plain, ' ', plain.length, true);
    plain['"'] = false;
    plain['\\'] = false;
    return plain;
  }

  private void rest(String text, int from) {
    for (int i = from; i < text.length(); i++) {
      char c = text.charAt(i);
      if (isPlain(c)) {
        single(c);
      } else if (c < 0x80) {
        escape(c);
      } else if (Character.isSurrogate(c)) {
        pair(text, i);
        i++;
      } else {
        wide(c);
      }
    }
  }

  /** UTF-8 of a character beyond ASCII and within the first plane. */
  private void wide(char c) {
    if (c < 0x800) {
      single(0xC0 | (c >> 6));
    } else {
      single(0xE0 | (c >> 12));
      single(0x80 | ((c >> 6) & 0x3F));
    }
    single(0x80 | (c & 0x3F));
  }

  private void pair(String text, int at) {
    boolean whole =
        at + 1 < text.length() && Character.isSurrogatePair(text.charAt(at), text.charAt(at + 1));
    if (!whole) {
      throw new IllegalArgumentException("lone surrogate at " + at);
    }
    int c = text.codePointAt(at);
    single(0xF0 | (c >> 18));
    single(0x80 | ((c >> 12) & 0x3F));
    single(0x80 | ((c >> 6) & 0x3F));
    single(0x80 | (c & 0x3F));
  }

  private void escape(char c) {
    switch (c) {
      case '"' -> ascii("\\\"");
      case '\\' -> ascii("\\\\");
      case '\b' -> ascii("\\b");
      case '\t' -> ascii("\\t");
      case '\n' -> ascii("\\n");
      case '\f' -> ascii("\\f");
      case '\r' -> ascii("\\r");
      default -> ascii(String.format(Locale.ROOT, "\\u%04x", (int) c));
    }
  }

  private void makeRoomFor(int more) {
    if (more > out.length - length) {
      out = Arrays.copyOf(out, Math.max(2 * out.length, length + more));
    }
  }
}
