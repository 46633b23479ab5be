package evenside.readiness.recording;

import evenside.document.Document;
import java.util.List;
import java.util.Optional;

/**
 * A page of a list, newest first.
 *
 * @param items the documents
 * @param ids their identifiers, in the same order
 * @param next position to go on from; empty at the end
 */
public record Page(List<Document> items, List<String> ids, Optional<String> next) {
  public Page {
    items = List.copyOf(items);
    ids = List.copyOf(ids);
  }
}
