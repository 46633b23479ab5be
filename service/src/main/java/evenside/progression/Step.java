package evenside.progression;

import java.time.LocalDate;

/**
 * One session of one piece of work.
 *
 * @param index place of the bout in the history
 * @param bout the training
 * @param item what it did of this work
 */
record Step(int index, Bout bout, Item item) {
  LocalDate day() {
    return bout.day();
  }
}
