package evenside.api.page;

import java.util.Locale;
import java.util.ResourceBundle;

/** The words of all pages, by key, from {@code texts.properties}. */
public final class Texts {
  private static final ResourceBundle BUNDLE =
      ResourceBundle.getBundle("evenside.api.page.texts", Locale.ROOT);

  private Texts() {}

  /**
   * The text of a key, with {@code {0}}, {@code {1}}… filled in.
   *
   * @throws java.util.MissingResourceException if there is no such key
   */
  public static String text(String key, Object... values) {
    String text = BUNDLE.getString(key);
    for (int i = 0; i < values.length; i++) {
      text = text.replace("{" + i + "}", values[i].toString());
    }
    return text;
  }

  /** The text of the first key that is there, else the last argument as it is. */
  public static String known(String prefix, String code) {
    String key = prefix + "." + code;
    return BUNDLE.containsKey(key) ? BUNDLE.getString(key) : code;
  }

  /** The text for one or for several. */
  public static String counted(String key, int count) {
    return text(key + (count == 1 ? ".one" : ".many"), count);
  }

  /** A text with a capital and a full stop. */
  public static String sentence(String text) {
    if (text.isEmpty()) {
      return text;
    }
    String upper = text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    return upper.endsWith(".") ? upper : upper + ".";
  }

  /** True if there is such a key. */
  public static boolean has(String key) {
    return BUNDLE.containsKey(key);
  }
}
