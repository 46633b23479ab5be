package evenside.document;

import org.jspecify.annotations.Nullable;

/**
 * Names of members as they are written after another: comma, name in quotes, colon. For names that
 * stand in the code and in closed lists: a few hundred. Found by identity, which is quicker than
 * copying a name letter by letter; a name that is not found in its few places is made anew.
 */
final class MemberNames {
  /** A power of two, several times the number of names. */
  private static final int SIZE = 2048;

  private static final int PLACES = 8;

  /** Comma, colon and two quotes. */
  private static final int QUOTES = 4;

  /** Set without a lock: an entry never changes, and one that is lost is made again. */
  private static final @Nullable Entry[] ENTRIES = new @Nullable Entry[SIZE];

  private MemberNames() {}

  private static final class Entry {
    private final String name;
    private final byte[] bytes;

    private Entry(String name) {
      this.name = name;
      this.bytes = encoded(name);
    }
  }

  /** The array is shared: nobody writes to it. */
  static byte[] bytes(String name) {
    int place = name.hashCode() & (SIZE - 1);
    Entry first = ENTRIES[place];
    return first != null && isSame(first, name) ? first.bytes : further(name, place);
  }

  private static byte[] further(String name, int first) {
    for (int i = 0; i < PLACES; i++) {
      int place = (first + i) & (SIZE - 1);
      Entry entry = ENTRIES[place];
      if (entry == null) {
        entry = new Entry(name);
        ENTRIES[place] = entry;
      }
      if (isSame(entry, name)) {
        return entry.bytes;
      }
    }
    return encoded(name);
  }

  @SuppressWarnings("ReferenceEquality") // an equal name that is another object is kept beside it
  private static boolean isSame(Entry entry, String name) {
    return entry.name == name;
  }

  private static byte[] encoded(String name) {
    CanonicalBytes bytes = new CanonicalBytes(name.length() + QUOTES);
    bytes.single(',');
    bytes.text(name);
    bytes.single(':');
    return bytes.copy();
  }
}
