package evenside.api.page;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.Utf8ByteOutput;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;

/**
 * Fills templates. They are classes of this jar, made at build time, and escape what they are given
 * by the place it goes to.
 */
public final class Templates {
  private static final String PACKAGE = "evenside.api.page.template";

  private Templates() {}

  /** A template, by its path in {@code src/main/jte} without ending, filled with a model. */
  public static byte[] render(String name, Object model) {
    Utf8ByteOutput output = new Utf8ByteOutput();
    Engine.INSTANCE.render(name + ".jte", model, output);
    ByteArrayOutputStream bytes = new ByteArrayOutputStream(output.getContentLength());
    try {
      output.writeTo(bytes);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  /** Made when the first page is asked for: a service that only answers programs never needs it. */
  private static final class Engine {
    static final TemplateEngine INSTANCE =
        TemplateEngine.createPrecompiled(
            null, ContentType.Html, Templates.class.getClassLoader(), PACKAGE);
  }
}
