package evenside.api.page.docs;

import static evenside.api.page.Texts.text;

import java.util.List;
import tools.jackson.databind.JsonNode;

/**
 * A page of documentation made of sections, each with text, facts and a table.
 *
 * @param kicker what kind of thing it is
 * @param title its name
 * @param lead one sentence
 * @param section the entry of the navigation it belongs to
 * @param sections its parts; those that hold nothing are left out
 */
public record Article(
    String kicker, String title, String lead, String section, List<Section> sections) {
  /** Keeps its own copy. */
  public Article {
    sections = sections.stream().filter(part -> !part.empty()).toList();
  }

  /**
   * A part.
   *
   * @param id its anchor
   * @param heading its heading
   * @param texts paragraphs; words between grave accents are code
   * @param facts names and what they hold
   * @param table rows, if it has any
   * @param code an example, or empty
   */
  public record Section(
      String id, String heading, List<String> texts, List<Fact> facts, Table table, String code) {
    /** Keeps its own copies. */
    public Section {
      texts = List.copyOf(texts);
      facts = List.copyOf(facts);
    }

    /** Paragraphs alone. */
    public static Section of(String id, String heading, List<String> texts) {
      return new Section(id, heading, texts, List.of(), Table.NONE, "");
    }

    /** A table alone. */
    public static Section of(String id, String heading, Table table) {
      return new Section(id, heading, List.of(), List.of(), table, "");
    }

    /** What a published document is, where it comes from and where it stands. */
    static Section about(Fact... facts) {
      return new Section("about", text("docs.about"), List.of(), List.of(facts), Table.NONE, "");
    }

    /** What a published document notes about itself. */
    static Section notes(JsonNode notes) {
      return of("notes", text("docs.notes"), notes.valueStream().map(JsonNode::asString).toList());
    }

    /** The same with an example. */
    public Section with(String example) {
      return new Section(id, heading, texts, facts, table, example);
    }

    boolean empty() {
      return texts.isEmpty() && facts.isEmpty() && table.rows().isEmpty() && code.isEmpty();
    }
  }

  /** A name and what it holds, linked if {@code href} is not empty. */
  public record Fact(String name, String value, String href) {
    /** Without a link. */
    public static Fact of(String name, String value) {
      return new Fact(name, value, "");
    }

    /** Where the document itself is served. */
    static Fact document(String name, String href) {
      return new Fact(text("docs.document"), name, href);
    }
  }

  /** Headings and rows; the first cell of a row names it. */
  public record Table(List<String> headings, List<List<Cell>> rows) {
    /** No table. */
    public static final Table NONE = new Table(List.of(), List.of());

    /** Keeps its own copies. */
    public Table {
      headings = List.copyOf(headings);
      rows = List.copyOf(rows);
    }
  }

  /** A text, linked if {@code href} is not empty, set as code if it is. */
  public record Cell(String text, String href, boolean code) {
    /** Plain. */
    public static Cell of(String text) {
      return new Cell(text, "", false);
    }

    /** Something a program reads. */
    public static Cell code(String text) {
      return new Cell(text, "", true);
    }

    /** Linked. */
    public static Cell link(String text, String href) {
      return new Cell(text, href, false);
    }
  }
}
