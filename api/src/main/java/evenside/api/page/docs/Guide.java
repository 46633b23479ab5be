package evenside.api.page.docs;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * The guide, from {@code guide.md}. Of Markdown it uses headings, paragraphs of one line, and code
 * between fences.
 *
 * @param title its heading
 * @param blocks what follows
 */
public record Guide(String title, List<Block> blocks) {
  private static final String FENCE = "```";

  /** Keeps its own copies. */
  public Guide {
    blocks = List.copyOf(blocks);
  }

  /**
   * One part of it.
   *
   * @param form {@code h2}, {@code h3}, {@code p} or {@code pre}
   * @param text its words; lines of code as they are
   * @param id for links to a heading; else empty
   */
  public record Block(String form, String text, String id) {}

  /** The guide of this version. */
  public static Guide published() {
    try (InputStream in = Guide.class.getResourceAsStream("/evenside/api/page/guide.md")) {
      if (in == null) {
        throw new IllegalStateException("the guide is not in the jar");
      }
      return of(new String(in.readAllBytes(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static Guide of(String markdown) {
    String title = "";
    List<Block> blocks = new ArrayList<>();
    List<String> lines = markdown.lines().toList();
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i);
      if (line.startsWith(FENCE)) {
        int end = i + 1;
        while (!lines.get(end).equals(FENCE)) {
          end++;
        }
        blocks.add(new Block("pre", String.join("\n", lines.subList(i + 1, end)), ""));
        i = end;
      } else if (line.startsWith("# ")) {
        title = line.substring(2);
      } else if (line.startsWith("#")) {
        int level = line.indexOf(' ');
        String text = line.substring(level + 1);
        blocks.add(new Block("h" + level, text, id(text)));
      } else if (!line.isBlank()) {
        blocks.add(new Block("p", line, ""));
      }
    }
    return new Guide(title, blocks);
  }

  private static String id(String heading) {
    return heading.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-");
  }

  /** The headings that the page lists at its top. */
  public List<Block> walks() {
    return blocks.stream().filter(block -> block.form().equals("h2")).toList();
  }
}
