package evenside.questionnaire;

/**
 * The answer to one item.
 *
 * @param item the item
 * @param value as it enters the score
 */
record Answer(Item item, double value) {}
