package evenside.api.command;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.stream.Stream;
import picocli.CommandLine;

/** What a command of the jar did, run in this process. */
public record Run(int exitCode, String out, String err) {
  public static Run of(Object... arguments) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    String[] args = Stream.of(arguments).map(Object::toString).toArray(String[]::new);
    CommandLine command =
        Main.commandLine(args).setOut(new PrintWriter(out)).setErr(new PrintWriter(err));
    int exitCode = command.execute(args);
    return new Run(exitCode, out.toString(), err.toString());
  }
}
