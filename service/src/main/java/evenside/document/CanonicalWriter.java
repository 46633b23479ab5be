package evenside.document;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * Writes JSON in the one form that RFC 8785 allows, straight to bytes: members by name in UTF-16
 * order, no white space, shortest escapes, numbers as ECMAScript prints them.
 *
 * <pre>{@code
 * byte[] bytes = CanonicalWriter.bytes(json ->
 *     json.object().put("unit", "cm").name("values").array().number(150).number(161.5).end().end());
 * }</pre>
 *
 * <p>Why no tree: an answer of 37 kB has 1 300 members, and making a node for each, only to put
 * them in order and to walk over them again, took more than half of the time of an assessment. What
 * is to be written is known in its order when the code is, so the order is the code's and is
 * checked here, at the cost of one comparison a member. A name out of order is a mistake of the
 * program and throws {@link IllegalStateException}; a test that writes the document meets it.
 *
 * <p>What makes it quick: names of members are kept as bytes ({@link MemberNames}); so is what
 * depends on published data alone ({@link Fragments}); the buffer stays with its thread; numbers of
 * up to nine decimals, which all of ours are, have a short way ({@link CanonicalNumber}).
 *
 * <p>A tree that somebody sent is written by {@link #tree}, which puts its members in order.
 *
 * <p>Not safe for use by several threads; each writer is used inside {@link #bytes} only.
 */
public final class CanonicalWriter {
  private static final int FIRST_SIZE = 4096;

  /** A larger buffer does not stay with its thread. */
  private static final int MOST_KEPT = 1 << 17;

  private static final int USUAL_DEPTH = 16;

  /** Growing a buffer to the size of an answer costs as much as a third of writing it. */
  private static final ThreadLocal<@Nullable CanonicalWriter> KEPT = new ThreadLocal<>();

  /** What may come next. */
  private enum Next {
    FIRST_ITEM,
    FIRST_MEMBER,
    VALUE_OF_MEMBER,
    MORE
  }

  private final CanonicalBytes out = new CanonicalBytes(FIRST_SIZE);

  /** The last name at each depth; null where there is none: in an array, outside of everything. */
  private @Nullable String[] lastNames = new @Nullable String[USUAL_DEPTH];

  private int depth;
  private Next next = Next.FIRST_ITEM;

  private CanonicalWriter() {}

  /**
   * The bytes of one value.
   *
   * @param content writes it
   * @throws IllegalArgumentException if it holds what canonical JSON cannot: a number that is not
   *     finite, a lone surrogate
   * @throws IllegalStateException if what is written is no JSON value, or its members are not in
   *     order
   */
  public static byte[] bytes(Consumer<CanonicalWriter> content) {
    CanonicalWriter kept = KEPT.get();
    KEPT.set(null); // whoever writes in between takes another
    CanonicalWriter writer = kept == null ? new CanonicalWriter() : kept;
    byte[] bytes = writer.write(content);
    if (writer.out.size() <= MOST_KEPT) {
      KEPT.set(writer);
    }
    return bytes;
  }

  private byte[] write(Consumer<CanonicalWriter> content) {
    out.clear();
    depth = 0;
    next = Next.FIRST_ITEM;
    content.accept(this);
    if (depth != 0 || next != Next.MORE) {
      throw new IllegalStateException("the value is not complete");
    }
    return out.copy();
  }

  /** Begins an object. */
  public CanonicalWriter object() {
    begin('{');
    next = Next.FIRST_MEMBER;
    return this;
  }

  /** Begins an array. */
  public CanonicalWriter array() {
    begin('[');
    next = Next.FIRST_ITEM;
    return this;
  }

  private void begin(char bracket) {
    value();
    out.single(bracket);
    depth++;
    if (depth == lastNames.length) {
      lastNames = Arrays.copyOf(lastNames, 2 * depth);
    }
    lastNames[depth] = null;
  }

  /** Ends the object or array begun last. */
  public CanonicalWriter end() {
    boolean object = next == Next.FIRST_MEMBER || lastNames[depth] != null;
    if (depth == 0 || next == Next.VALUE_OF_MEMBER) {
      throw new IllegalStateException("nothing can end here");
    }
    out.single(object ? '}' : ']');
    depth--;
    next = Next.MORE;
    return this;
  }

  /** The name of the next member, which code knows: at most some hundred of them exist. */
  public CanonicalWriter name(String name) {
    boolean first = member(name);
    out.bytes(MemberNames.bytes(name), first ? 1 : 0);
    return this;
  }

  /** The name of the next member, which somebody sent, by someone who put the names in order. */
  CanonicalWriter anyName(String name) {
    if (next == Next.MORE) {
      out.single(',');
    }
    lastNames[depth] = name;
    next = Next.VALUE_OF_MEMBER;
    out.text(name);
    out.single(':');
    return this;
  }

  /** True for the first member of its object. */
  private boolean member(String name) {
    String last = lastNames[depth];
    boolean first = next == Next.FIRST_MEMBER;
    if (!first && (next != Next.MORE || last == null)) {
      throw new IllegalStateException("no member " + name + " can stand here");
    }
    if (!first && last.compareTo(name) >= 0) {
      throw new IllegalStateException(name + " does not come after " + last);
    }
    lastNames[depth] = name;
    next = Next.VALUE_OF_MEMBER;
    return first;
  }

  private void value() {
    if (next == Next.MORE && depth > 0 && lastNames[depth] == null) {
      out.single(',');
    } else if (next == Next.MORE || next == Next.FIRST_MEMBER) {
      throw new IllegalStateException("no value can stand here without a name");
    }
    next = Next.MORE;
  }

  /** A text, refused with an {@link IllegalArgumentException} if it holds a lone surrogate. */
  public CanonicalWriter text(String text) {
    value();
    out.text(text);
    return this;
  }

  /** A number, refused with an {@link IllegalArgumentException} if it is not finite. */
  public CanonicalWriter number(double number) {
    value();
    out.number(number);
    return this;
  }

  /** True or false. */
  public CanonicalWriter flag(boolean flag) {
    value();
    out.ascii(flag ? "true" : "false");
    return this;
  }

  CanonicalWriter nothing() {
    value();
    out.ascii("null");
    return this;
  }

  /** A day, {@code 2026-08-19}. */
  public CanonicalWriter day(LocalDate day) {
    value();
    out.day(day);
    return this;
  }

  /** A value that is written already. */
  public CanonicalWriter document(Document value) {
    return written(value.bytes());
  }

  CanonicalWriter written(byte[] value) {
    value();
    out.bytes(value);
    return this;
  }

  /** A tree, its members put in order. */
  public CanonicalWriter tree(JsonNode tree) {
    CanonicalJson.write(this, tree);
    return this;
  }

  /** An array with one item for each. */
  public <T> CanonicalWriter array(
      Iterable<? extends T> items, BiConsumer<CanonicalWriter, ? super T> each) {
    array();
    for (T item : items) {
      each.accept(this, item);
    }
    return end();
  }

  /** An array of texts. */
  public CanonicalWriter texts(Iterable<String> texts) {
    array();
    for (String text : texts) {
      text(text);
    }
    return end();
  }

  /** A member with its value. */
  public CanonicalWriter put(String name, String text) {
    return name(name).text(text);
  }

  /** A member with its value. */
  public CanonicalWriter put(String name, double number) {
    return name(name).number(number);
  }

  /**
   * A member with a whole number; beyond 2^53 the double next to it, as whoever reads it has it.
   */
  public CanonicalWriter put(String name, long number) {
    return put(name, (double) number);
  }

  /** A member with its value. */
  public CanonicalWriter put(String name, boolean flag) {
    return name(name).flag(flag);
  }

  /** A member with its value. */
  public CanonicalWriter put(String name, LocalDate day) {
    return name(name).day(day);
  }

  /** A member, unless there is none. */
  CanonicalWriter putIfAny(String name, @Nullable String text) {
    return text == null ? this : put(name, text);
  }

  /** A member, unless there is none. */
  CanonicalWriter putIfAny(String name, @Nullable Double number) {
    return number == null ? this : put(name, (double) number);
  }
}
