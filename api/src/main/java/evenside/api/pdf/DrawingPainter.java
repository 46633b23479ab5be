package evenside.api.pdf;

import com.openhtmltopdf.css.parser.FSRGBColor;
import com.openhtmltopdf.css.sheet.FontFaceRule;
import com.openhtmltopdf.css.style.CssContext;
import com.openhtmltopdf.extend.OutputDevice;
import com.openhtmltopdf.extend.SVGDrawer;
import com.openhtmltopdf.layout.SharedContext;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.render.Box;
import com.openhtmltopdf.render.RenderingContext;
import java.awt.BasicStroke;
import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.io.File;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.w3c.dom.Element;
import org.w3c.dom.Node;

/**
 * Paints our own drawings: lines, rectangles, circles, paths of straight lines, and texts, with the
 * presentation attributes that {@code evenside.api.drawing} writes. It is no general SVG program.
 */
final class DrawingPainter implements SVGDrawer {
  private static final Pattern POINT = Pattern.compile("([ML])(-?[0-9.]+) (-?[0-9.]+)");

  @Override
  public SVGImage buildSVGImage(
      Element svg, Box box, CssContext context, double wide, double high, double dotsPerPixel) {
    double width = number(svg, "width");
    double height = number(svg, "height");
    double scale = wide > 0 ? wide / width : dotsPerPixel;
    return new Image(svg, width * scale, height * scale, scale);
  }

  @Override
  public void importFontFaceRules(List<FontFaceRule> rules, SharedContext context) {}

  @Override
  public void addFontFile(File font, String family, @Nullable Integer weight, FontStyle style) {}

  @Override
  public void close() {}

  private record Image(Element svg, double width, double height, double scale) implements SVGImage {
    @Override
    public int getIntrinsicWidth() {
      return (int) Math.round(width);
    }

    @Override
    public int getIntrinsicHeight() {
      return (int) Math.round(height);
    }

    @Override
    public void drawSVG(OutputDevice device, RenderingContext context, double x, double y) {
      AffineTransform place = new AffineTransform(scale, 0, 0, scale, x, y);
      paintChildren(device, svg, place);
    }
  }

  private static void paintChildren(OutputDevice device, Element parent, AffineTransform place) {
    for (Node node = parent.getFirstChild(); node != null; node = node.getNextSibling()) {
      if (node instanceof Element element) {
        shape(element).ifPresent(shape -> paint(device, element, shape, place));
      }
    }
  }

  private static void paint(
      OutputDevice device, Element element, Shape shape, AffineTransform place) {
    Shape placed = place.createTransformedShape(shape);
    color(element, "fill")
        .ifPresent(
            color -> {
              device.setColor(color);
              device.fill(placed);
            });
    color(element, "stroke")
        .ifPresent(
            color -> {
              device.setColor(color);
              device.setStroke(stroke(element, place.getScaleX()));
              device.draw(placed);
            });
  }

  private static Optional<Shape> shape(Element element) {
    return switch (element.getLocalName() == null ? element.getTagName() : element.getLocalName()) {
      case "line" ->
          Optional.of(
              new Line2D.Double(
                  number(element, "x1"),
                  number(element, "y1"),
                  number(element, "x2"),
                  number(element, "y2")));
      case "rect" ->
          Optional.of(
              new Rectangle2D.Double(
                  number(element, "x"),
                  number(element, "y"),
                  number(element, "width"),
                  number(element, "height")));
      case "circle" -> {
        double r = number(element, "r");
        yield Optional.of(
            new Ellipse2D.Double(
                number(element, "cx") - r, number(element, "cy") - r, 2 * r, 2 * r));
      }
      case "path" -> Optional.of(path(element.getAttribute("d")));
      case "text" -> Optional.of(text(element));
      default -> Optional.empty();
    };
  }

  private static Shape path(String data) {
    Path2D.Double path = new Path2D.Double();
    Matcher points = POINT.matcher(data);
    while (points.find()) {
      double x = Double.parseDouble(points.group(2));
      double y = Double.parseDouble(points.group(3));
      if (points.group(1).equals("M")) {
        path.moveTo(x, y);
      } else {
        path.lineTo(x, y);
      }
    }
    if (data.endsWith("Z")) {
      path.closePath();
    }
    return path;
  }

  private static Shape text(Element element) {
    Fonts font = element.getAttribute("font-weight").equals("bold") ? Fonts.BOLD : Fonts.REGULAR;
    Fonts.Outline outline = font.outline(element.getTextContent(), number(element, "font-size"));
    double shift =
        switch (element.getAttribute("text-anchor")) {
          case "middle" -> -outline.length() / 2;
          case "end" -> -outline.length();
          default -> 0;
        };
    AffineTransform place =
        AffineTransform.getTranslateInstance(number(element, "x") + shift, number(element, "y"));
    return place.createTransformedShape(outline.shape());
  }

  private static BasicStroke stroke(Element element, double scale) {
    float width = (float) (number(element, "stroke-width") * scale);
    List<Float> dashes = new ArrayList<>();
    for (String dash : element.getAttribute("stroke-dasharray").split(" ", -1)) {
      if (!dash.isEmpty()) {
        dashes.add((float) (Double.parseDouble(dash) * scale));
      }
    }
    if (dashes.isEmpty()) {
      return new BasicStroke(width);
    }
    float[] pattern = new float[dashes.size()];
    for (int i = 0; i < pattern.length; i++) {
      pattern[i] = dashes.get(i);
    }
    return new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10, pattern, 0);
  }

  private static Optional<FSRGBColor> color(Element element, String attribute) {
    String color = element.getAttribute(attribute);
    return color.startsWith("#")
        ? Optional.of(new FSRGBColor(Integer.parseInt(color.substring(1), 16)))
        : Optional.empty();
  }

  private static double number(Element element, String attribute) {
    String text = element.getAttribute(attribute);
    return text.isEmpty() ? 0 : Double.parseDouble(text);
  }
}
