package evenside.api.page;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.nio.charset.StandardCharsets;
import java.util.regex.Pattern;

/**
 * Fills templates. They are classes of this jar, made at build time, and escape what they are given
 * by the place it goes to.
 */
public final class Templates {
  private static final String PACKAGE = "evenside.api.page.template";

  private static final Pattern NOT_XML =
      Pattern.compile("[^\\t\\n\\r\\x{20}-\\x{D7FF}\\x{E000}-\\x{FFFD}\\x{10000}-\\x{10FFFF}]");

  private Templates() {}

  /**
   * A template, by its path in {@code src/main/jte} without ending, filled with a model. Characters
   * that XML cannot hold, although JSON can, become the replacement character, so that each page is
   * well-formed.
   */
  public static byte[] render(String name, Object model) {
    StringOutput page = new StringOutput();
    Engine.INSTANCE.render(name + ".jte", model, page);
    return NOT_XML.matcher(page.toString()).replaceAll("\uFFFD").getBytes(StandardCharsets.UTF_8);
  }

  /** Made when the first page is asked for: a service that only answers programs never needs it. */
  private static final class Engine {
    static final TemplateEngine INSTANCE =
        TemplateEngine.createPrecompiled(
            null, ContentType.Html, Templates.class.getClassLoader(), PACKAGE);
  }
}
