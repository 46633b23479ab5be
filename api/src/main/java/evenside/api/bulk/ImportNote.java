package evenside.api.bulk;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/**
 * How far an import is, in a file beside the one that is imported: the number of the last line that
 * was answered, and the SHA-256 of all lines up to it, by which another file is found out.
 */
final class ImportNote {
  private final Path note;
  private final MessageDigest digest;
  private int last;

  private ImportNote(Path note) {
    this.note = note;
    this.digest = sha256();
  }

  static ImportNote beside(Path file) {
    return new ImportNote(file.resolveSibling(file.getFileName() + ".progress"));
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }

  /**
   * Reads past the lines that an earlier run has done.
   *
   * @return how many
   * @throws IllegalStateException if they are not those of the earlier run
   */
  int skip(LineReader reader) throws IOException {
    if (!Files.exists(note)) {
      return 0;
    }
    String[] before = Files.readString(note).strip().split(" ", -1);
    int wanted = before.length == 2 && before[0].matches("[0-9]{1,9}") ? number(before[0]) : -1;
    int skipped = 0;
    Line line;
    while (last < wanted && (line = reader.next()) != null) {
      done(line);
      skipped++;
    }
    if (last != wanted || !hash().equals(before[1])) {
      throw new IllegalStateException(
          note + " is of another file, or the file was changed; remove it to start again");
    }
    return skipped;
  }

  private static int number(String digits) {
    return Integer.parseInt(digits);
  }

  /** A line was answered. */
  void done(Line line) {
    last = line.number();
    digest.update(line.bytes());
    digest.update((byte) '\n');
  }

  /** Notes it; the next run begins after the last line that was done. */
  void write() throws IOException {
    Path part = note.resolveSibling(note.getFileName() + ".part");
    Files.deleteIfExists(part);
    Files.writeString(part, last + " " + hash() + "\n", StandardOpenOption.CREATE_NEW);
    Files.move(part, note, StandardCopyOption.ATOMIC_MOVE);
  }

  /** The import is at its end. */
  void remove() throws IOException {
    Files.deleteIfExists(note);
  }

  private String hash() {
    try {
      return HexFormat.of().formatHex(((MessageDigest) digest.clone()).digest());
    } catch (CloneNotSupportedException e) {
      throw new IllegalStateException("SHA-256 can be copied", e);
    }
  }

  /** A file that only its owner may read, as it holds what was sent. */
  static BufferedWriter appendTo(Path file) throws IOException {
    try {
      Files.createFile(file, ownerOnly());
    } catch (FileAlreadyExistsException goOn) {
      return append(file);
    }
    return append(file);
  }

  /** Never through a link that somebody else laid there. */
  private static BufferedWriter append(Path file) throws IOException {
    return Files.newBufferedWriter(
        file, StandardCharsets.UTF_8, StandardOpenOption.APPEND, LinkOption.NOFOLLOW_LINKS);
  }

  private static FileAttribute<?>[] ownerOnly() {
    return FileSystems.getDefault().supportedFileAttributeViews().contains("posix")
        ? new FileAttribute<?>[] {
          PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"))
        }
        : new FileAttribute<?>[0];
  }
}
