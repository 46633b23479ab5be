package evenside.api.page.decision;

import evenside.api.page.Texts;

/** What is known of outcomes. */
final class Known {
  private Known() {}

  /** False for a criterion that is not for this person. */
  static boolean judged(Criterion criterion) {
    return !criterion.outcome().equals(Texts.text("outcome.not-applicable"));
  }
}
