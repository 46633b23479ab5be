package evenside.criteria;

import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * An immutable, versioned set of criteria for one milestone.
 *
 * @param id code of the set
 * @param version version; a published version never changes
 * @param sha256 fingerprint of its canonical bytes
 * @param title name
 * @param milestone the gate it is for
 * @param designedFor what passing it was meant to allow, and what not
 * @param population the people it was made or studied on
 * @param studied the same, as far as a case can be held against it, or null
 * @param source main source
 * @param maxResultAgeDays results older than this do not count, or null
 * @param criteria the tree of required criteria
 * @param informative shown beside, never changing the outcome
 */
public record CriteriaSet(
    String id,
    String version,
    String sha256,
    String title,
    String milestone,
    String designedFor,
    String population,
    @Nullable StudiedPeople studied,
    Citation source,
    @Nullable Integer maxResultAgeDays,
    Criterion criteria,
    List<Criterion> informative) {
  public CriteriaSet {
    informative = List.copyOf(informative);
  }

  /** {@code id/version}. */
  public String name() {
    return id + "/" + version;
  }

  /** All single criteria, required and informative. */
  public Stream<Criterion.Leaf> leaves() {
    return Stream.concat(Stream.of(criteria), informative.stream())
        .flatMap(criterion -> criterion.leaves().stream());
  }
}
