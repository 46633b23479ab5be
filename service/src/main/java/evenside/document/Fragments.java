package evenside.document;

import java.util.function.BiConsumer;
import org.jspecify.annotations.Nullable;

/**
 * What is written for published things, such as citations, kept as bytes: the same few hundred are
 * in every answer. Found by identity, since published things are read once and stay.
 *
 * <p>There is a fixed number of places, so what is read from a clinic's own criteria sets cannot
 * pile up: a thing without a place takes that of another, which is written anew when it comes next.
 *
 * <p>Safe for use by several threads without a lock: an entry never changes, and one that is lost
 * is made again.
 */
final class Fragments<T> {
  /** A power of two, some times the number of published things of the largest kind. */
  private static final int SIZE = 512;

  private final @Nullable Entry[] entries = new @Nullable Entry[SIZE];
  private final BiConsumer<CanonicalWriter, ? super T> how;

  /**
   * Nothing yet.
   *
   * @param how writes one, and looks at nothing else
   */
  Fragments(BiConsumer<CanonicalWriter, ? super T> how) {
    this.how = how;
  }

  private static final class Entry {
    private final Object thing;
    private final byte[] bytes;

    private Entry(Object thing, byte[] bytes) {
      this.thing = thing;
      this.bytes = bytes;
    }
  }

  /** The value that is written for a thing. The array is shared: nobody writes to it. */
  byte[] of(T thing) {
    int place = System.identityHashCode(thing) & (SIZE - 1);
    Entry first = entries[place];
    if (first != null && first.thing == thing) {
      return first.bytes;
    }
    Entry second = entries[place ^ 1];
    return second != null && second.thing == thing ? second.bytes : add(thing, place);
  }

  /** Into the second place if the first is taken. */
  private byte[] add(T thing, int place) {
    byte[] bytes = CanonicalWriter.bytes(json -> how.accept(json, thing));
    entries[entries[place] == null ? place : place ^ 1] = new Entry(thing, bytes);
    return bytes;
  }
}
