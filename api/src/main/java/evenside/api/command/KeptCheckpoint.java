package evenside.api.command;

import evenside.note.Checkpoint;
import evenside.note.SignedNote;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;

/** A checkpoint that somebody kept in a file. */
final class KeptCheckpoint {
  private KeptCheckpoint() {}

  /**
   * Reads them.
   *
   * @param option that named the files, for the message
   */
  static List<SignedNote> read(String option, List<Path> files) {
    return files.stream().map(file -> read(option, file)).toList();
  }

  private static SignedNote read(String option, Path file) {
    String text;
    try {
      text = Files.readString(file);
    } catch (NoSuchFileException e) {
      throw new UncheckedIOException("there is no file " + file, e);
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + file + ": " + e.getMessage(), e);
    }
    try {
      SignedNote note = SignedNote.parse(text);
      Checkpoint.parse(note.text());
      return note;
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException(
          "%s: %s is not one checkpoint, as /v1/ledger/checkpoint gives it: %s"
              .formatted(option, file, e.getMessage()),
          e);
    }
  }
}
