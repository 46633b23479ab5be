package evenside.api.drawing;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** Writes one {@code svg} element. Lengths are in CSS pixels at the drawing's natural size. */
final class Svg {
  /** Where a text stands to its point. */
  enum Anchor {
    START,
    MIDDLE,
    END
  }

  private final double width;
  private final double height;
  private final StringBuilder body = new StringBuilder();

  Svg(double width, double height) {
    this.width = width;
    this.height = height;
  }

  Svg line(double x1, double y1, double x2, double y2, Pen pen) {
    return element("line", "x1", x1, "y1", y1, "x2", x2, "y2", y2, pen);
  }

  Svg rect(double x, double y, double wide, double high, Pen pen) {
    return element("rect", "x", x, "y", y, "width", wide, "height", high, pen);
  }

  Svg circle(double x, double y, double radius, Pen pen) {
    body.append("<circle cx=\"").append(number(x)).append("\" cy=\"").append(number(y));
    body.append("\" r=\"").append(number(radius)).append('"').append(pen.attributes()).append("/>");
    return this;
  }

  /** Straight lines from point to point; closed if the pen fills. */
  Svg path(double[][] points, Pen pen) {
    body.append("<path d=\"");
    for (int i = 0; i < points.length; i++) {
      body.append(i == 0 ? "M" : "L").append(number(points[i][0])).append(' ');
      body.append(number(points[i][1]));
    }
    body.append(pen.fills() ? "Z\"" : "\"").append(pen.attributes()).append("/>");
    return this;
  }

  /** A diamond about its middle. */
  Svg diamond(double x, double y, double r, Pen pen) {
    return path(new double[][] {{x, y - r}, {x + r, y}, {x, y + r}, {x - r, y}}, pen);
  }

  Svg text(double x, double y, Anchor anchor, Letters letters, String text) {
    body.append("<text x=\"").append(number(x)).append("\" y=\"").append(number(y));
    body.append("\" text-anchor=\"").append(anchor.name().toLowerCase(java.util.Locale.ROOT));
    body.append('"').append(letters.attributes()).append('>').append(escape(text));
    body.append("</text>");
    return this;
  }

  /** The drawing with its text alternative. */
  Drawing described(String title, String description) {
    return new Drawing(
        open()
            + " role=\"img\" aria-label=\""
            + escape(title + ". " + description)
            + "\"><title>"
            + escape(title)
            + "</title><desc>"
            + escape(description)
            + "</desc>"
            + body
            + "</svg>");
  }

  /** The drawing where the words beside it say all. */
  Drawing decorative() {
    return new Drawing(open() + " aria-hidden=\"true\" focusable=\"false\">" + body + "</svg>");
  }

  private String open() {
    String size = number(width) + " " + number(height);
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 "
        + size
        + "\" width=\""
        + number(width)
        + "\" height=\""
        + number(height)
        + "\"";
  }

  private Svg element(
      String name,
      String a,
      double first,
      String b,
      double second,
      String c,
      double third,
      String d,
      double fourth,
      Pen pen) {
    body.append('<').append(name);
    attribute(a, first);
    attribute(b, second);
    attribute(c, third);
    attribute(d, fourth);
    body.append(pen.attributes()).append("/>");
    return this;
  }

  private void attribute(String name, double value) {
    body.append(' ').append(name).append("=\"").append(number(value)).append('"');
  }

  private static String number(double value) {
    return BigDecimal.valueOf(value)
        .setScale(1, RoundingMode.HALF_UP)
        .stripTrailingZeros()
        .toPlainString();
  }

  static String escape(String text) {
    StringBuilder escaped = new StringBuilder(text.length() + 16);
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      switch (c) {
        case '&' -> escaped.append("&amp;");
        case '<' -> escaped.append("&lt;");
        case '>' -> escaped.append("&gt;");
        case '"' -> escaped.append("&quot;");
        case '\'' -> escaped.append("&#39;");
        default -> escaped.append(c);
      }
    }
    return escaped.toString();
  }
}
