package evenside.clients;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.store.Store;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;

/** What holds for keys of clients in every database. */
abstract class ClientKeysContract {
  private static final Instant NOON = Instant.parse("2026-11-25T12:00:00Z");
  private static final Duration YEAR = Duration.ofDays(365);
  private static final Set<String> SCOPES = Set.of("records:write", "decisions:read");

  private final String clinic = "c-" + UUID.randomUUID();

  abstract Store store();

  private ClientKeys at(Instant now) {
    return new ClientKeys(store(), () -> now);
  }

  private IssuedKey issue(String client) {
    return at(NOON).issue(clinic, client, SCOPES, NOON.plus(YEAR));
  }

  @Test
  void key_issued_isFoundByItsToken() {
    IssuedKey issued = issue("gym");
    assertThat(issued.token()).matches("evk_[0-9a-f]{16}_[A-Za-z0-9_-]{43}");
    assertThat(issued.key().scopes()).isEqualTo(SCOPES);
    assertThat(at(NOON).find(issued.token())).contains(issued.key());
    assertThat(issued.key().isLive(NOON)).isTrue();
    assertThat(issued.key().isLive(NOON.plus(YEAR))).isFalse();
    assertThat(issued.toString()).doesNotContain(issued.token());
  }

  @Test
  void token_changedAnywhere_isNotFound() {
    String token = issue("gym").token();
    for (int i = 0; i < token.length(); i++) {
      char other = token.charAt(i) == '0' ? '1' : '0';
      String changed = token.substring(0, i) + other + token.substring(i + 1);
      assertThat(at(NOON).find(changed)).as("character %d", i).isEmpty();
    }
    for (String text : List.of("", "evk_", token + "A", " " + token, token.substring(1))) {
      assertThat(at(NOON).find(text)).as(text).isEmpty();
    }
  }

  @Test
  void tokens_areNeverTheSame() {
    String first = issue("gym").token();
    String second = issue("gym").token();
    assertThat(second.substring(20)).isNotEqualTo(first.substring(20));
    assertThat(second.substring(0, 20)).isNotEqualTo(first.substring(0, 20));
  }

  @Test
  void key_third_waitsUntilOneOfTwoEnded() {
    IssuedKey first = issue("gym");
    issue("gym");
    assertThatThrownBy(() -> issue("gym"))
        .isInstanceOf(ClientRefusal.class)
        .hasMessageContaining("2 live keys already (" + first.key().id());
    issue("ward");
    at(NOON).revoke(first.key().id());
    issue("gym");
    assertThatThrownBy(() -> issue("gym")).isInstanceOf(ClientRefusal.class);
    Instant later = NOON.plus(YEAR);
    at(later).issue(clinic, "gym", SCOPES, later.plus(YEAR));
  }

  @Test
  void keys_issuedAtOnce_areTwoAtMost() throws Exception {
    issue("gym");
    ExecutorService threads = Executors.newFixedThreadPool(8);
    List<Future<Boolean>> tries = new ArrayList<>();
    Callable<Boolean> one =
        () -> {
          try {
            issue("gym");
            return true;
          } catch (RuntimeException refused) {
            return false;
          }
        };
    for (int i = 0; i < 8; i++) {
      tries.add(threads.submit(one));
    }
    for (Future<Boolean> each : tries) {
      each.get();
    }
    threads.shutdown();
    assertThat(at(NOON).list(Optional.of(clinic)).stream().filter(key -> key.isLive(NOON)))
        .hasSize(2);
  }

  @Test
  void key_revoked_isListedAndDead() {
    IssuedKey issued = issue("gym");
    ClientKey revoked = at(NOON.plusSeconds(60)).revoke(issued.key().id());
    assertThat(revoked.revokedAt()).contains(NOON.plusSeconds(60));
    assertThat(revoked.isLive(NOON.plusSeconds(60))).isFalse();
    assertThat(at(NOON.plusSeconds(90)).revoke(issued.key().id())).isEqualTo(revoked);
    assertThat(at(NOON).find(issued.token())).contains(revoked);
    assertThat(at(NOON).list(Optional.of(clinic))).containsExactly(revoked);
    assertThatThrownBy(() -> at(NOON).revoke("0".repeat(16)))
        .isInstanceOf(ClientRefusal.class)
        .hasMessageContaining("there is no key");
  }

  @Test
  void use_isNotedOnceADay() {
    IssuedKey issued = issue("gym");
    for (Instant at : List.of(NOON, NOON.plusSeconds(5), NOON.plus(Duration.ofDays(2)))) {
      at(at).noteUse(at(at).find(issued.token()).orElseThrow());
      at(at).noteUse(issued.key());
    }
    assertThat(at(NOON).find(issued.token()).orElseThrow().lastUsedOn())
        .contains(LocalDate.parse("2026-11-27"));
  }

  /** The first requests of a day come at once, and none may fail for it. */
  @Test
  void use_notedByManyAtOnce_failsForNone() throws Exception {
    IssuedKey issued = issue("gym");
    ExecutorService threads = Executors.newFixedThreadPool(8);
    for (int day = 1; day <= 10; day++) {
      ClientKeys keys = at(NOON.plus(Duration.ofDays(day)));
      List<Future<?>> uses = new ArrayList<>();
      for (int i = 0; i < 8; i++) {
        uses.add(threads.submit(() -> keys.noteUse(issued.key())));
      }
      for (Future<?> use : uses) {
        use.get();
      }
    }
    threads.shutdown();
    assertThat(at(NOON).find(issued.token()).orElseThrow().lastUsedOn())
        .contains(LocalDate.parse("2026-12-05"));
  }

  @Test
  void list_ofAll_holdsEveryClinic() {
    ClientKey here = issue("gym").key();
    ClientKey there = at(NOON).issue(clinic + "2", "gym", SCOPES, NOON.plus(YEAR)).key();
    assertThat(at(NOON).list(Optional.empty())).contains(here, there);
    assertThat(at(NOON).list(Optional.of(clinic))).containsExactly(here);
  }

  @Test
  void request_faulty_isRefusedWithTheReason() {
    Instant end = NOON.plus(YEAR);
    refused(() -> at(NOON).issue("A clinic", "gym", SCOPES, end), "a clinic is named by");
    refused(() -> at(NOON).issue("", "gym", SCOPES, end), "a clinic is named by");
    refused(() -> at(NOON).issue("c".repeat(65), "gym", SCOPES, end), "1 to 64");
    refused(() -> at(NOON).issue(clinic, "a b", SCOPES, end), "a client is named by");
    refused(() -> at(NOON).issue(clinic, "gym", Set.of(), end), "at least one scope");
    refused(() -> at(NOON).issue(clinic, "gym", Set.of("a b"), end), "at least one scope");
    refused(() -> at(NOON).issue(clinic, "gym", SCOPES, NOON), "within 731 days");
    refused(
        () -> at(NOON).issue(clinic, "gym", SCOPES, NOON.plus(Duration.ofDays(732))),
        "within 731 days");
  }

  private static void refused(
      org.assertj.core.api.ThrowableAssert.ThrowingCallable call, String why) {
    assertThatThrownBy(call).isInstanceOf(ClientRefusal.class).hasMessageContaining(why);
  }
}
