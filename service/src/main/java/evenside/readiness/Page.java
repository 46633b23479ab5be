package evenside.readiness;

import evenside.document.Document;
import java.util.List;
import java.util.Optional;

/**
 * A page of a list, newest first.
 *
 * @param items the documents
 * @param next position to go on from; empty at the end
 */
public record Page(List<Document> items, Optional<String> next) {
  public Page {
    items = List.copyOf(items);
  }
}
