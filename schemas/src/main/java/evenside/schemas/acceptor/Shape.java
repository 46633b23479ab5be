package evenside.schemas.acceptor;

/**
 * A regular expression as a table: one look-up for each character, whatever the text. Made of the
 * plain expressions that the published schemas keep to ({@link ShapeParser}).
 *
 * @param group of each ASCII character: those that no part of the expression tells apart share one
 * @param groups how many groups there are
 * @param next where a character of a group leads from a state, at {@code state * groups + group};
 *     -1 for nowhere
 * @param accepting the states in which the text may end
 */
record Shape(byte[] group, int groups, short[] next, boolean[] accepting) implements TextRule {

  /**
   * The shape of an expression.
   *
   * @param pattern an expression that starts with {@code ^} and ends with <code>$</code>
   * @throws Unknown if it holds anything but ASCII characters, {@code \} before a sign, classes of
   *     characters and ranges, groups, {@code |}, and counts
   */
  static Shape of(String pattern) {
    Automaton automaton = new Automaton();
    int end = new ShapeParser(pattern).expression().from(0, automaton);
    return automaton.shape(0, end);
  }

  @Override
  public boolean accepts(String text) {
    int state = 0;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c >= group.length) {
        return false;
      }
      state = next[state * groups + group[c]];
      if (state < 0) {
        return false;
      }
    }
    return accepting[state];
  }
}
