package evenside.store.evidence;

import static evenside.store.Samples.NOON;
import static evenside.store.Samples.battery;
import static evenside.store.Samples.newClinic;
import static java.time.temporal.ChronoUnit.DAYS;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.store.Store;
import evenside.store.StoredBattery;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import org.junit.jupiter.api.Test;

/** What holds in every database for looking up evidence. Each test has a clinic of its own. */
abstract class EvidenceSearchContract {
  private static final String STRENGTH = "knee-extension-peak-torque";

  private final String clinic = newClinic();

  abstract Store store();

  private List<FoundEvidence> rows(Function<EvidenceSearch, List<FoundEvidence>> question) {
    return store().read(reading -> question.apply(reading.evidence(clinic, "k-1")));
  }

  private UUID add(Instant performedAt, EvidenceRow... evidence) {
    StoredBattery battery = battery(clinic, "k-1", performedAt);
    return store()
        .write(
            w -> {
              w.insertBattery(battery, List.of(evidence));
              return battery.id();
            });
  }

  private static Instant day(int n) {
    return NOON.plus(n, DAYS);
  }

  private static EvidenceRow strength(String aspect, String mode, double speed) {
    return new EvidenceRow(
        STRENGTH,
        aspect,
        Optional.of(mode),
        Optional.of(speed),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

  private List<UUID> newest(EvidenceQuery query) {
    return rows(evidence -> evidence.newest(query)).stream().map(FoundEvidence::batteryId).toList();
  }

  @Test
  void newest_isTheNewestNotAfter_andNotBefore() {
    EvidenceRow row = EvidenceRow.of("single-hop-distance", "symmetry");
    UUID first = add(day(1), row);
    UUID second = add(day(5), row);
    EvidenceQuery query = EvidenceQuery.of("single-hop-distance", "symmetry", day(5));

    assertThat(newest(query)).containsExactly(second);
    assertThat(newest(EvidenceQuery.of("single-hop-distance", "symmetry", day(4))))
        .containsExactly(first);
    assertThat(newest(EvidenceQuery.of("single-hop-distance", "symmetry", day(0)))).isEmpty();
    assertThat(newest(notBefore(query, day(5)))).containsExactly(second);
    assertThat(newest(notBefore(query, day(5).plusSeconds(1)))).isEmpty();
  }

  private static EvidenceQuery notBefore(EvidenceQuery query, Instant oldest) {
    return new EvidenceQuery(
        query.measure(),
        query.aspect(),
        query.modes(),
        query.speed(),
        query.angle(),
        query.context(),
        query.notAfter(),
        Optional.of(oldest));
  }

  @Test
  void newest_fitsMeasureAspectAndProtocol() {
    UUID slow = add(day(1), strength("symmetry", "isokinetic-concentric", 60));
    UUID fast = add(day(2), strength("symmetry", "isokinetic-concentric", 180));
    UUID eccentric = add(day(3), strength("symmetry", "isokinetic-eccentric", 60));
    add(day(4), strength("operated", "isokinetic-concentric", 60));
    add(day(5), EvidenceRow.of("body-mass", "value"));

    assertThat(newest(strengthQuery(List.of(), Optional.empty()))).containsExactly(eccentric);
    assertThat(newest(strengthQuery(List.of("isokinetic-concentric"), Optional.empty())))
        .containsExactly(fast);
    assertThat(newest(strengthQuery(List.of("isokinetic-concentric"), Optional.of(60.0))))
        .containsExactly(slow);
    assertThat(
            newest(strengthQuery(List.of("isometric", "isokinetic-eccentric"), Optional.of(60.0))))
        .containsExactly(eccentric);
    assertThat(newest(strengthQuery(List.of("isometric"), Optional.empty()))).isEmpty();
  }

  private static EvidenceQuery strengthQuery(List<String> modes, Optional<Double> speed) {
    return new EvidenceQuery(
        STRENGTH,
        "symmetry",
        modes,
        speed,
        Optional.empty(),
        Optional.empty(),
        day(9),
        Optional.empty());
  }

  @Test
  void newest_fitsAngleAndContext() {
    UUID at60 =
        add(
            day(1),
            new EvidenceRow(
                STRENGTH,
                "symmetry",
                Optional.of("isometric"),
                Optional.empty(),
                Optional.of(60.0),
                Optional.empty(),
                Optional.empty()));
    UUID atRest =
        add(
            day(1),
            new EvidenceRow(
                "knee-pain",
                "value",
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.of("rest"),
                Optional.empty()));

    assertThat(newest(pinned(STRENGTH, "symmetry", Optional.of(60.0), Optional.empty())))
        .containsExactly(at60);
    assertThat(newest(pinned(STRENGTH, "symmetry", Optional.of(90.0), Optional.empty()))).isEmpty();
    assertThat(newest(pinned("knee-pain", "value", Optional.empty(), Optional.of("rest"))))
        .containsExactly(atRest);
    assertThat(newest(pinned("knee-pain", "value", Optional.empty(), Optional.of("worst-24h"))))
        .isEmpty();
  }

  private static EvidenceQuery pinned(
      String measure, String aspect, Optional<Double> angle, Optional<String> context) {
    return new EvidenceQuery(
        measure, aspect, List.of(), Optional.empty(), angle, context, day(9), Optional.empty());
  }

  @Test
  void newest_notPerformedCountsAsNewest_whateverTheProtocol() {
    add(day(1), strength("symmetry", "isokinetic-concentric", 60));
    UUID notDone = add(day(2), EvidenceRow.of(STRENGTH, EvidenceRow.NOT_PERFORMED));
    EvidenceQuery query = strengthQuery(List.of("isokinetic-concentric"), Optional.of(60.0));

    assertThat(rows(evidence -> evidence.newest(query)))
        .containsExactly(
            new FoundEvidence(
                notDone, day(2), EvidenceRow.of(STRENGTH, EvidenceRow.NOT_PERFORMED)));

    UUID done = add(day(3), strength("symmetry", "isokinetic-concentric", 60));
    assertThat(newest(query)).containsExactly(done);
  }

  @Test
  void newest_notPerformedOnOneLeg_countsForItsNumberAlone() {
    UUID graded =
        add(
            day(1),
            strength("symmetry", "isokinetic-concentric", 60),
            strength("operated", "isokinetic-concentric", 60));
    UUID notDone = add(day(2), EvidenceRow.of(STRENGTH, EvidenceRow.notPerformed("symmetry")));

    assertThat(newest(EvidenceQuery.of(STRENGTH, "symmetry", day(9)))).containsExactly(notDone);
    assertThat(newest(EvidenceQuery.of(STRENGTH, "operated", day(9)))).containsExactly(graded);
    for (FoundEvidence one : rows(evidence -> evidence.at(day(2)))) {
      assertThat(EvidenceQuery.of(STRENGTH, "symmetry", day(9)).isAnsweredBy(one.row())).isTrue();
      assertThat(EvidenceQuery.of(STRENGTH, "operated", day(9)).isAnsweredBy(one.row())).isFalse();
    }
  }

  @Test
  void newest_givesEveryRowOfTheNewestTime() {
    UUID one =
        add(
            day(1),
            strength("symmetry", "isokinetic-concentric", 60),
            strength("symmetry", "isokinetic-concentric", 180));
    UUID two = add(day(1), strength("symmetry", "isokinetic-concentric", 60));

    assertThat(rows(evidence -> evidence.newest(strengthQuery(List.of(), Optional.empty()))))
        .containsExactly(
            new FoundEvidence(two, day(1), strength("symmetry", "isokinetic-concentric", 60)),
            new FoundEvidence(one, day(1), strength("symmetry", "isokinetic-concentric", 60)),
            new FoundEvidence(one, day(1), strength("symmetry", "isokinetic-concentric", 180)));
  }

  @Test
  void at_givesAllOfOneTime_andAnswersAsTheSearchForTheNewestDoes() {
    add(day(0), strength("symmetry", "isokinetic-concentric", 60));
    add(day(1), strength("symmetry", "isokinetic-concentric", 60));
    add(
        day(1),
        strength("operated", "isokinetic-concentric", 60),
        EvidenceRow.of("body-mass", "value"),
        EvidenceRow.of("vertical-jump", EvidenceRow.NOT_PERFORMED));

    List<FoundEvidence> all = rows(evidence -> evidence.at(day(1)));

    assertThat(all).hasSize(4).allMatch(one -> one.performedAt().equals(day(1)));
    for (EvidenceQuery query :
        List.of(
            strengthQuery(List.of("isokinetic-concentric"), Optional.of(60.0)),
            strengthQuery(List.of(), Optional.empty()),
            EvidenceQuery.of("body-mass", "value", day(1)),
            EvidenceQuery.of("vertical-jump", "operated", day(1)))) {
      assertThat(all.stream().filter(one -> query.isAnsweredBy(one.row())))
          .isNotEmpty()
          .containsExactlyElementsOf(rows(evidence -> evidence.newest(query)));
    }
    EvidenceQuery otherSpeed = strengthQuery(List.of("isokinetic-concentric"), Optional.of(180.0));
    assertThat(all).noneMatch(one -> otherSpeed.isAnsweredBy(one.row()));
    EvidenceQuery otherMode = strengthQuery(List.of("isometric"), Optional.empty());
    assertThat(all).noneMatch(one -> otherMode.isAnsweredBy(one.row()));
  }

  @Test
  void filed_areTheMeasuresThatTheCaseHasAnythingOf() {
    add(day(0), EvidenceRow.of("body-mass", "value"));
    add(day(1), EvidenceRow.of("vertical-jump", EvidenceRow.NOT_PERFORMED));

    assertThat(filed("body-mass", "vertical-jump", "locking"))
        .containsExactlyInAnyOrder("body-mass", "vertical-jump");
    assertThat(filed()).isEmpty();
  }

  private Set<String> filed(String... measures) {
    return store().read(reading -> reading.evidence(clinic, "k-1").filed(List.of(measures)));
  }
}
