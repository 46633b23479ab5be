package evenside.api.command;

import evenside.api.access.Scope;
import evenside.api.demo.DemoClinic;
import evenside.clients.ClientKey;
import evenside.clients.IssuedKey;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import picocli.CommandLine.TypeConversionException;

/** The keys of the clients; the key that signs the ledger is {@link LedgerKeyCommand}'s. */
@Command(
    name = "keys",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    description =
        "Issue, list and revoke the keys by which client programs call the service. (The key that"
            + " signs the ledger is another matter: ledger-key.)")
final class KeysCommand implements Runnable {
  private static final String ROW = "%-16s  %-16s  %-20s  %-10s  %-10s  %-10s  %-7s  %s";

  @Spec private CommandSpec spec;

  @Override
  public void run() {
    spec.commandLine().usage(spec.commandLine().getOut());
  }

  @Command(
      name = "issue",
      mixinStandardHelpOptions = true,
      description =
          "Issue a key and print it, this once: only its SHA-256 is kept. A client has two live"
              + " keys at most, so that it can change over.")
  void issue(
      @Mixin RecordOptions record,
      @Option(
              names = "--client",
              required = true,
              paramLabel = "NAME",
              description = "Name of the program, as the access trail will show it.")
          String client,
      @Option(
              names = "--clinic",
              required = true,
              paramLabel = "ID",
              description = "Clinic whose records the key opens.")
          String clinic,
      @Option(
              names = "--scope",
              required = true,
              split = ",",
              paramLabel = "SCOPE",
              description =
                  "What it may do; more than one with commas: records:write, decisions:read,"
                      + " audit:read, criteria:publish, determinations:record, subjects:erase,"
                      + " keys:manage, metrics:read.")
          List<String> scopes,
      @Option(
              names = "--expires",
              converter = Day.class,
              paramLabel = "DATE",
              description = "Last day it is valid (UTC). Default: a year from today.")
          @Nullable LocalDate expires) {
    demandScopes(scopes);
    if (clinic.equals(DemoClinic.NAME)) {
      throw usage("--clinic cannot be " + clinic + ": that is the invented clinic's name.");
    }
    LocalDate last = expires == null ? LocalDate.now(ZoneOffset.UTC).plusYears(1) : expires;
    Instant end = last.plusDays(1).atStartOfDay(ZoneOffset.UTC).toInstant();
    IssuedKey issued = record.place().withKeys(keys -> keys.issue(clinic, client, scopes, end));
    spec.commandLine().getOut().println(issued.token());
    spec.commandLine()
        .getErr()
        .printf(
            "key %s of client %s of clinic %s, until %s (UTC); it is not shown again%n",
            issued.key().id(), client, clinic, last);
  }

  @Command(
      name = "list",
      mixinStandardHelpOptions = true,
      description = "List the keys, expired and revoked ones too.")
  void list(
      @Mixin RecordOptions record,
      @Option(names = "--clinic", paramLabel = "ID", description = "Only keys of this clinic.")
          @Nullable String clinic) {
    List<ClientKey> keys = record.existing().withKeys(all -> all.list(Optional.ofNullable(clinic)));
    println(
        ROW.formatted(
            "id", "clinic", "client", "issued", "expires", "last used", "state", "scopes"));
    Instant now = Instant.now();
    keys.forEach(key -> println(row(key, now)));
  }

  @Command(
      name = "revoke",
      mixinStandardHelpOptions = true,
      description =
          "Revoke a key for good. A service that runs on the same database server refuses it within"
              + " seconds.")
  void revoke(
      @Mixin RecordOptions record,
      @Parameters(paramLabel = "KEY-ID", description = "The id that keys list shows.") String id) {
    ClientKey key = record.existing().withKeys(keys -> keys.revoke(id));
    println(
        "revoked key " + key.id() + " of client " + key.client() + " of clinic " + key.clinic());
  }

  private void demandScopes(List<String> scopes) {
    for (String scope : scopes) {
      if (Scope.of(scope).isEmpty()) {
        throw usage("--scope takes any of " + Scope.names() + ", not " + scope + ".");
      }
    }
  }

  private static String row(ClientKey key, Instant now) {
    return ROW.formatted(
        key.id(),
        key.clinic(),
        key.client(),
        day(key.issuedAt()),
        day(key.expiresAt().minusMillis(1)),
        key.lastUsedOn().map(LocalDate::toString).orElse("never"),
        key.revokedAt().isPresent() ? "revoked" : key.isLive(now) ? "live" : "expired",
        String.join(",", new TreeSet<>(key.scopes())));
  }

  private static LocalDate day(Instant at) {
    return at.atOffset(ZoneOffset.UTC).toLocalDate();
  }

  /** A day in a form that is told where it is another. */
  static final class Day implements ITypeConverter<LocalDate> {
    @Override
    public LocalDate convert(String value) {
      try {
        return LocalDate.parse(value);
      } catch (DateTimeParseException e) {
        throw new TypeConversionException("it is a day as 2027-03-31, not " + value + ".");
      }
    }
  }

  private void println(String line) {
    spec.commandLine().getOut().println(line);
  }

  private ParameterException usage(String message) {
    CommandLine issue = spec.commandLine().getSubcommands().get("issue");
    return new ParameterException(issue, message);
  }
}
