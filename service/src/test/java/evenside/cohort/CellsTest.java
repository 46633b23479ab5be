package evenside.cohort;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Rules of disclosure control as commonly practised; no single source. */
class CellsTest {

  @Test
  void largeCells_areShown() {
    Cells cells = Cells.of(5, 5, 23, 0);
    assertThat(cells.hides()).isFalse();
    assertThat(cells.shown(0)).hasValue(5);
    assertThat(cells.shown(2)).hasValue(0);
  }

  @Test
  void smallCell_takesItsComplementWithIt() {
    Cells cells = Cells.of(5, 2, 26);
    assertThat(cells.shown(0)).isEmpty();
    assertThat(cells.shown(1)).isEmpty();
  }

  @Test
  void smallCell_ofThree_takesTheNextSmallest() {
    Cells cells = Cells.of(5, 3, 40, 17);
    assertThat(cells.shown(0)).isEmpty();
    assertThat(cells.shown(1)).hasValue(40);
    assertThat(cells.shown(2)).isEmpty();
  }

  @Test
  void twoSmallCells_thatHoldFewTogether_takeAThird() {
    Cells cells = Cells.of(5, 1, 2, 40, 17);
    assertThat(cells.shown(3)).isEmpty();
    assertThat(cells.shown(2)).hasValue(40);
  }

  @Test
  void smallestOne_hidesNothing() {
    assertThat(Cells.of(1, 1, 2, 3).hides()).isFalse();
  }

  /** Law: with the sum known, no small cell can be worked out. */
  @Test
  void noSmallCell_followsFromTheSum() {
    Random random = new Random(7);
    for (int i = 0; i < 10_000; i++) {
      int[] counts = random.ints(2 + random.nextInt(4), 0, 30).toArray();
      Cells cells = Cells.of(5, counts);
      int hidden = 0;
      int held = 0;
      for (int cell = 0; cell < counts.length; cell++) {
        if (cells.shown(cell).isEmpty()) {
          hidden++;
          held += counts[cell];
        } else {
          assertThat(counts[cell] == 0 || counts[cell] >= 5).isTrue();
        }
      }
      long peopled = Arrays.stream(counts).filter(count -> count > 0).count();
      boolean everybody = hidden == peopled;
      assertThat(hidden == 0 || everybody || (hidden >= 2 && held >= 5)).isTrue();
    }
  }
}
