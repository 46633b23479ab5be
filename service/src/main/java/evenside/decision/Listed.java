package evenside.decision;

import java.util.List;

/** A list in a sentence that has only so much room. */
final class Listed {
  private Listed() {}

  /** As many as there is room for, joined by semicolons; the rest are counted. */
  static String within(int room, List<String> items) {
    StringBuilder text = new StringBuilder();
    int named = 0;
    while (named < items.size()) {
      String item = (named == 0 ? "" : "; ") + items.get(named);
      if (text.length() + item.length() > room) {
        break;
      }
      text.append(item);
      named++;
    }
    int rest = items.size() - named;
    if (rest > 0) {
      text.append(named == 0 ? "" : "; and ").append(rest).append(" more");
    }
    return text.toString();
  }
}
