package evenside.api.command;

import evenside.api.Place;
import evenside.api.settings.BadSettings;
import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Moves a record between its data folder and a database server. */
@Command(
    name = "move",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    description =
        "Copy a whole record from its data folder to an empty database of a PostgreSQL server, in"
            + " one transaction, and prove that nothing changed. The service must be stopped. The"
            + " record that was copied stays as it is.",
    footer = {
      "",
      "User and password of the server come from the environment: EVENSIDE_DATABASE_USER,"
          + " EVENSIDE_DATABASE_PASSWORD."
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:moved; everything holds",
      "1:moved, but an audit of the target found something",
      "2:not moved; the target is as before"
    })
final class MoveCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private RecordOptions record;

  @Option(
      names = "--back",
      description = "The other way: from the database server to a data folder without a record.")
  private boolean back;

  @Override
  public Integer call() {
    Place server = record.place();
    if (server.embedded()) {
      throw new BadSettings("name the database server by --database-url");
    }
    Place folder = server.inItsFolder();
    Place from = back ? server : folder;
    Place to = back ? folder : server;
    PrintWriter out = spec.commandLine().getOut();
    List<String> findings =
        Upkeep.move(
            from,
            to,
            copied -> {
              out.printf(
                  "%-20s %9d rows  SHA-256 %s%n", copied.table(), copied.rows(), copied.sha256());
              out.flush();
            });
    findings.forEach(out::println);
    out.println(
        findings.isEmpty()
            ? "moved; rows, documents, ledgers and checkpoints are equal, and everything holds"
            : "moved, but the audit found something; findings: " + findings.size());
    out.println(
        back
            ? "Serve it from the data folder, with the key in its ledger.key."
            : "Serve it with the same --data, the --database-url and --ledger-key "
                + folder.folder().resolve("ledger.key"));
    return findings.isEmpty() ? Main.OK : Main.FAULTY;
  }
}
