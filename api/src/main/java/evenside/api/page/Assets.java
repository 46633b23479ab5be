package evenside.api.page;

import evenside.document.Document;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Optional;

/**
 * The files that pages load: under a name with their fingerprint, so that each is kept for ever.
 */
public final class Assets {
  private static final String FOLDER = "/docs/assets/";
  private static final Asset STYLE = Asset.load("evenside", "css", "text/css;charset=utf-8");
  private static final Asset ICON = Asset.load("evenside", "svg", "image/svg+xml");
  private static final List<Asset> ALL = List.of(STYLE, ICON);

  private Assets() {}

  /**
   * A file.
   *
   * @param name its name in the URL
   * @param mediaType its media type
   * @param bytes what it holds; not to be changed
   */
  @SuppressWarnings("ArrayRecordComponent") // never compared, and the bytes are never changed
  public record Asset(String name, String mediaType, byte[] bytes) {
    private static Asset load(String stem, String ending, String mediaType) {
      byte[] bytes = resource(stem + "." + ending);
      String fingerprint = Document.sha256(bytes).substring(0, 12);
      return new Asset(stem + "-" + fingerprint + "." + ending, mediaType, bytes);
    }
  }

  /** The file under this name. */
  public static Optional<Asset> named(String name) {
    return ALL.stream().filter(asset -> asset.name().equals(name)).findFirst();
  }

  /** Path of the style sheet. */
  public static String style() {
    return FOLDER + STYLE.name();
  }

  /** Path of the icon. */
  public static String icon() {
    return FOLDER + ICON.name();
  }

  /** The style sheet itself. */
  public static String styleText() {
    return new String(STYLE.bytes(), java.nio.charset.StandardCharsets.UTF_8);
  }

  private static byte[] resource(String name) {
    try (InputStream file = Assets.class.getResourceAsStream(name)) {
      if (file == null) {
        throw new IllegalStateException(name + " is not in the jar");
      }
      return file.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
