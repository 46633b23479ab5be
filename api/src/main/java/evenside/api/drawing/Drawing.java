package evenside.api.drawing;

import gg.jte.Content;
import gg.jte.TemplateOutput;

/**
 * A finished drawing, to be put into a page as it is.
 *
 * @param svg an {@code svg} element, escaped by {@link Svg}
 */
public record Drawing(String svg) implements Content {
  @Override
  public void writeTo(TemplateOutput output) {
    output.writeContent(svg);
  }
}
