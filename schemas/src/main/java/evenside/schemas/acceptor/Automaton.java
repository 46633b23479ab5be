package evenside.schemas.acceptor;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The states of a regular expression and the ways between them, and the table made of them: each
 * row of the table is a set of states one can be in at once (the textbook subset construction).
 */
final class Automaton {

  private static final int ASCII = 128;

  /** Far beyond every published pattern; keeps a table small. */
  private static final int MOST_ROWS = 1_000;

  private record Way(BitSet characters, int to) {}

  private final List<List<Way>> ways = new ArrayList<>();
  private final List<List<Integer>> jumps = new ArrayList<>();

  /** With state 0, where every text starts. */
  Automaton() {
    state();
  }

  /** A new state. */
  int state() {
    ways.add(new ArrayList<>());
    jumps.add(new ArrayList<>());
    return ways.size() - 1;
  }

  /** A new state, reached by one of these characters. */
  int step(int from, BitSet characters) {
    int to = state();
    ways.get(from).add(new Way(characters, to));
    return to;
  }

  /** A way that takes no character. */
  void jump(int from, int to) {
    jumps.get(from).add(to);
  }

  /** The table of all texts that lead from one state to another. */
  Shape shape(int from, int to) {
    byte[] group = new byte[ASCII];
    List<Integer> samples = samples(group);
    int groups = samples.size();
    Map<BitSet, Integer> rows = new LinkedHashMap<>();
    List<BitSet> open = new ArrayList<>();
    List<Integer> next = new ArrayList<>();
    row(withJumps(List.of(from)), rows, open);
    for (int i = 0; i < open.size(); i++) {
      for (int sample : samples) {
        BitSet behind = after(open.get(i), sample);
        next.add(behind.isEmpty() ? -1 : row(behind, rows, open));
      }
    }
    short[] table = new short[next.size()];
    for (int i = 0; i < table.length; i++) {
      table[i] = next.get(i).shortValue();
    }
    boolean[] accepting = new boolean[open.size()];
    for (int i = 0; i < accepting.length; i++) {
      accepting[i] = open.get(i).get(to);
    }
    return new Shape(group, groups, table, accepting);
  }

  /** One character of each group; characters that every way treats alike are of one group. */
  private List<Integer> samples(byte[] group) {
    Map<List<Boolean>, Integer> known = new HashMap<>();
    List<Integer> samples = new ArrayList<>();
    for (int c = 0; c < ASCII; c++) {
      List<Boolean> taken = new ArrayList<>();
      for (List<Way> ofState : ways) {
        for (Way way : ofState) {
          taken.add(way.characters().get(c));
        }
      }
      Integer place = known.putIfAbsent(taken, samples.size());
      if (place == null) {
        place = samples.size();
        samples.add(c);
      }
      group[c] = place.byteValue();
    }
    return samples;
  }

  private static int row(BitSet states, Map<BitSet, Integer> rows, List<BitSet> open) {
    Integer known = rows.putIfAbsent(states, open.size());
    if (known != null) {
      return known;
    }
    open.add(states);
    if (open.size() > MOST_ROWS) {
      throw new Unknown("a pattern with more than " + MOST_ROWS + " states");
    }
    return open.size() - 1;
  }

  private BitSet after(BitSet states, int character) {
    List<Integer> reached = new ArrayList<>();
    states.stream()
        .forEach(
            state -> {
              for (Way way : ways.get(state)) {
                if (way.characters().get(character)) {
                  reached.add(way.to());
                }
              }
            });
    return withJumps(reached);
  }

  private BitSet withJumps(List<Integer> states) {
    BitSet all = new BitSet();
    List<Integer> open = new ArrayList<>(states);
    while (!open.isEmpty()) {
      int state = open.remove(open.size() - 1);
      if (!all.get(state)) {
        all.set(state);
        open.addAll(jumps.get(state));
      }
    }
    return all;
  }
}
