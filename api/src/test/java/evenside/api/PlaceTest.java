package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.settings.Catalogue;
import evenside.api.settings.Settings;
import org.junit.jupiter.api.Test;

class PlaceTest {
  private static final Settings SERVER =
      Settings.defaults().with(Catalogue.DATABASE_URL, "jdbc:postgresql://localhost/x");

  /** What then is refused, and what is opened with a warning, {@code StoreOpenTest} shows. */
  @Test
  void serverThatMayForget_isOpenedOnlyWhereTheSettingSaysSo() {
    assertThat(Place.of(SERVER).store().allowWeakDurability()).isFalse();
    assertThat(
            Place.of(SERVER.with(Catalogue.WEAK_DURABILITY, "true")).store().allowWeakDurability())
        .isTrue();
  }
}
