package evenside.api.page;

import java.util.Locale;
import java.util.StringJoiner;
import tools.jackson.databind.JsonNode;

/** How something was tested, in words. */
public final class Tests {
  private Tests() {}

  /**
   * The terms of a protocol and how trials became one number.
   *
   * @param protocol terms by name, as in documents
   * @param aggregation its code; may be empty
   */
  public static String way(JsonNode protocol, String aggregation) {
    StringJoiner words = new StringJoiner(", ");
    for (String name : protocol.propertyNames()) {
      JsonNode term = protocol.path(name);
      if (term.isBoolean()) {
        words.add(plain(name) + ": " + Figures.value(term));
      } else if (term.isArray()) {
        words.add(
            String.join(
                " " + Texts.text("docs.or") + " ",
                term.valueStream().map(one -> said(one.asString())).toList()));
      } else if (term.isString()) {
        words.add(said(term.asString()));
      } else {
        words.add(Figures.value(term));
      }
    }
    if (!aggregation.isEmpty()) {
      words.add(Texts.known("aggregation", aggregation).replace('-', ' '));
    }
    return words.toString();
  }

  private static String said(String term) {
    return Texts.known("protocol", term).replace('-', ' ');
  }

  /** A member's name as words: {@code gravityCorrected} is gravity corrected. */
  private static String plain(String name) {
    return name.replaceAll("([A-Z])", " $1").toLowerCase(Locale.ROOT);
  }
}
