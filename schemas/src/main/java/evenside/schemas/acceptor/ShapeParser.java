package evenside.schemas.acceptor;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/** Reads the plain regular expressions that the published schemas use, and nothing beyond. */
final class ShapeParser {

  /** A piece of an expression; it can be put into an automaton any number of times. */
  interface Piece {

    /** Adds the ways through this piece and returns the state behind it. */
    int from(int state, Automaton automaton);
  }

  private static final String SIGNS = "^$.*+?()[]{}|\\";
  private static final int UNBOUNDED = -1;

  private final String pattern;
  private int at;

  ShapeParser(String pattern) {
    this.pattern = pattern;
  }

  /** The whole expression without its anchors. */
  Piece expression() {
    need('^');
    Piece piece = sequence();
    need('$');
    if (at != pattern.length()) {
      throw unknown();
    }
    return piece;
  }

  private Piece alternatives() {
    List<Piece> all = new ArrayList<>(List.of(sequence()));
    while (peek() == '|') {
      at++;
      all.add(sequence());
    }
    return (state, automaton) -> {
      int behind = automaton.state();
      all.forEach(one -> automaton.jump(one.from(state, automaton), behind));
      return behind;
    };
  }

  private Piece sequence() {
    List<Piece> all = new ArrayList<>();
    while ("|)$".indexOf(peek()) < 0) {
      all.add(counted(one()));
    }
    return (state, automaton) -> {
      int behind = state;
      for (Piece piece : all) {
        behind = piece.from(behind, automaton);
      }
      return behind;
    };
  }

  private Piece one() {
    char c = take();
    if (c == '(') {
      if (peek() == '?') {
        throw unknown();
      }
      Piece group = alternatives();
      need(')');
      return group;
    }
    BitSet characters = c == '[' ? characterClass() : single(c);
    return (state, automaton) -> automaton.step(state, characters);
  }

  private BitSet single(char c) {
    BitSet single = new BitSet();
    single.set(c == '\\' ? escaped() : plain(c, SIGNS));
    return single;
  }

  private BitSet characterClass() {
    BitSet characters = new BitSet();
    while (peek() != ']') {
      char from = member();
      char to = from;
      if (peek() == '-' && pattern.charAt(at + 1) != ']') {
        at++;
        to = member();
      }
      if (to < from) {
        throw unknown();
      }
      characters.set(from, to + 1);
    }
    need(']');
    return characters;
  }

  /** One end of a range; a {@code -} stands for itself at either end of a class. */
  private char member() {
    char c = take();
    return c == '\\' ? escaped() : plain(c, "^[&\\");
  }

  private char plain(char c, String notThese) {
    if (c > '~' || c < ' ' || notThese.indexOf(c) >= 0) {
      throw unknown();
    }
    return c;
  }

  /** A sign taken literally; letters and digits mean something else behind a backslash. */
  private char escaped() {
    char c = take();
    if (c > '~' || Character.isLetterOrDigit(c)) {
      throw unknown();
    }
    return c;
  }

  private Piece counted(Piece piece) {
    switch (peek()) {
      case '?' -> {
        at++;
        return times(piece, 0, 1);
      }
      case '*' -> {
        at++;
        return times(piece, 0, UNBOUNDED);
      }
      case '+' -> {
        at++;
        return times(piece, 1, UNBOUNDED);
      }
      case '{' -> {
        at++;
        int fewest = number();
        int most = fewest;
        if (peek() == ',') {
          at++;
          most = peek() == '}' ? UNBOUNDED : number();
        }
        need('}');
        return times(piece, fewest, most);
      }
      default -> {
        return piece;
      }
    }
  }

  private Piece times(Piece piece, int fewest, int most) {
    if ("?*+{".indexOf(peek()) >= 0) {
      throw unknown(); // lazy or possessive, or a count of a count
    }
    return (state, automaton) -> {
      int behind = state;
      for (int i = 0; i < fewest; i++) {
        behind = piece.from(behind, automaton);
      }
      if (most == UNBOUNDED) {
        int again = automaton.state();
        automaton.jump(behind, again);
        automaton.jump(piece.from(again, automaton), again);
        return again;
      }
      int end = automaton.state();
      for (int i = fewest; i < most; i++) {
        automaton.jump(behind, end);
        behind = piece.from(behind, automaton);
      }
      automaton.jump(behind, end);
      return end;
    };
  }

  private int number() {
    int number = 0;
    while (peek() >= '0' && peek() <= '9' && number < 1_000) {
      number = number * 10 + (take() - '0');
    }
    return number;
  }

  /** The next character, or 0 at the end. */
  private char peek() {
    return at < pattern.length() ? pattern.charAt(at) : 0;
  }

  private char take() {
    if (at >= pattern.length()) {
      throw unknown();
    }
    return pattern.charAt(at++);
  }

  private void need(char c) {
    if (take() != c) {
      throw unknown();
    }
  }

  private Unknown unknown() {
    return new Unknown("the pattern " + pattern + " at character " + at);
  }
}
