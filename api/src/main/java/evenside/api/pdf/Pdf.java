package evenside.api.pdf;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Makes a tagged PDF of a page. */
public final class Pdf {
  private static final String FAMILY = "Liberation Sans";
  private static final Pattern STYLE = Pattern.compile("<link rel=\"stylesheet\"[^>]*/>");

  static {
    // Every rule of the style sheet that this program does not know would be a line in the log.
    XRLog.setLoggingEnabled(false);
  }

  private Pdf() {}

  /**
   * A page as PDF.
   *
   * @param html a page of ours, which is well-formed XML too
   * @param style the style sheet of all pages
   */
  public static byte[] of(byte[] html, String style) {
    ByteArrayOutputStream pdf = new ByteArrayOutputStream(1 << 16);
    PdfRendererBuilder builder = new PdfRendererBuilder();
    builder.usePdfUaAccessibility(true);
    builder.withProducer("Evenside");
    builder.useFont(
        () -> new ByteArrayInputStream(Fonts.REGULAR.bytes()), FAMILY, 400, FontStyle.NORMAL, true);
    builder.useFont(
        () -> new ByteArrayInputStream(Fonts.BOLD.bytes()), FAMILY, 700, FontStyle.NORMAL, true);
    builder.useSVGDrawer(new DrawingPainter());
    // Nothing is fetched, whatever a page may name.
    builder.useUriResolver((base, uri) -> uri.startsWith("#") ? uri : null);
    builder.withHtmlContent(page(html, style), null);
    builder.toStream(pdf);
    try {
      builder.run();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return pdf.toByteArray();
  }

  private static String page(byte[] html, String style) {
    String page = new String(html, StandardCharsets.UTF_8);
    String sheets = "<style>" + style + Fonts.text("pdf.css") + "</style>";
    return STYLE.matcher(page).replaceFirst(Matcher.quoteReplacement(sheets));
  }
}
