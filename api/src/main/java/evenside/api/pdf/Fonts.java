package evenside.api.pdf;

import java.awt.geom.AffineTransform;
import java.awt.geom.GeneralPath;
import java.awt.geom.Path2D;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;

/**
 * The fonts of a PDF: the regular one comes with the PDF library, the bold one of the same family
 * (Liberation, under the SIL Open Font License) with us. Both have the signs of comparison.
 */
@SuppressWarnings("ImmutableEnumChecker") // loaded once, and only read from then on
enum Fonts {
  REGULAR(PDDocument.class, "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf"),
  BOLD(Fonts.class, "LiberationSans-Bold.ttf");

  private final byte[] bytes;
  private final TrueTypeFont font;

  Fonts(Class<?> near, String name) {
    this.bytes = resource(near, name);
    try {
      this.font = new TTFParser().parse(new RandomAccessReadBuffer(bytes));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  byte[] bytes() {
    return bytes;
  }

  /** True if the font has a sign for it. */
  boolean has(int codePoint) throws IOException {
    return font.getUnicodeCmapLookup().getGlyphId(codePoint) != 0;
  }

  /** The outline of a line of text, its base line from 0/0 to the right, and its length. */
  Outline outline(String text, double size) {
    try {
      CmapLookup glyphs = font.getUnicodeCmapLookup();
      double scale = size / font.getUnitsPerEm();
      Path2D.Double all = new Path2D.Double();
      double x = 0;
      for (int codePoint : text.codePoints().toArray()) {
        int glyph = glyphs.getGlyphId(codePoint);
        if (font.getGlyph().getGlyph(glyph) != null) {
          GeneralPath path = font.getGlyph().getGlyph(glyph).getPath();
          all.append(path.getPathIterator(new AffineTransform(scale, 0, 0, -scale, x, 0)), false);
        }
        x += font.getAdvanceWidth(glyph) * scale;
      }
      return new Outline(all, x);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Letters as a shape, and how long the line is. */
  record Outline(Path2D.Double shape, double length) {}

  /** A text that lies beside this class. */
  static String text(String name) {
    return new String(resource(Fonts.class, name), StandardCharsets.UTF_8);
  }

  private static byte[] resource(Class<?> near, String name) {
    try (InputStream file = near.getResourceAsStream(name)) {
      if (file == null) {
        throw new IllegalStateException(name + " is not in the jar");
      }
      return file.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
