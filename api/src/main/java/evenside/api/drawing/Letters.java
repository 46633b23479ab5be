package evenside.api.drawing;

/** How texts in drawings are set. */
enum Letters {
  LABEL(12, "normal", "#1b2430"),
  STRONG(12, "bold", "#1b2430"),
  SMALL(11, "normal", "#4a5562");

  private final double size;
  private final String attributes;

  Letters(double size, String weight, String fill) {
    this.size = size;
    this.attributes =
        " font-size=\"" + size + "\" font-weight=\"" + weight + "\" fill=\"" + fill + "\"";
  }

  String attributes() {
    return attributes;
  }

  /** About how wide a text is; enough to keep labels inside the drawing. */
  double width(String text) {
    return text.length() * size * 0.55;
  }
}
