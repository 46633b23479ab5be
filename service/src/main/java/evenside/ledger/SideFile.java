package evenside.ledger;

import evenside.note.Checkpoint;
import evenside.note.SignedNote;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Every checkpoint that this process has signed for one ledger, one note after the other, synced
 * before anyone is answered. A database restored from yesterday is found out by it.
 *
 * <p>A note cut off at the end was never acknowledged, and is cut away when the file is opened. Not
 * for several threads at once; the file is locked against other processes.
 */
final class SideFile implements AutoCloseable {
  /** One note: lines of text, an empty line, signature lines. */
  private static final Pattern NOTE = Pattern.compile("(?:[^\n]+\n)+\n(?:\u2014 [^\n]+\n)+");

  /** Holds several notes, however long the names in them. */
  private static final int TAIL = 64 * 1024;

  private final Path path;
  private final FileChannel file;
  private final Disk disk;
  private long end;
  private Optional<SignedNote> newest;

  private SideFile(Path path, FileChannel file, Disk disk) {
    this.path = path;
    this.file = file;
    this.disk = disk;
    this.newest = Optional.empty();
  }

  /**
   * Opens the file, or makes it.
   *
   * @throws LedgerRefusal if it cannot be read, is another's, or does not end in checkpoints
   */
  static SideFile open(Path path, Disk disk) {
    try {
      FileChannel channel =
          FileChannel.open(
              path, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
      SideFile side = new SideFile(path, channel, disk);
      try {
        side.lock();
        side.findEnd();
        disk.syncName(path);
        return side;
      } catch (IOException | RuntimeException e) {
        channel.close();
        throw e;
      }
    } catch (IOException e) {
      throw new LedgerRefusal("cannot open the checkpoint file " + path + ": " + e.getMessage(), e);
    }
  }

  private void lock() throws IOException {
    try {
      if (file.tryLock() != null) {
        return;
      }
    } catch (OverlappingFileLockException ours) {
      throw new LedgerRefusal("this Evenside is using the checkpoint file already: " + path, ours);
    }
    throw new LedgerRefusal("another Evenside is using the checkpoint file " + path);
  }

  private void findEnd() throws IOException {
    long from = Math.max(0, file.size() - TAIL);
    byte[] tail = read(from, (int) (file.size() - from));
    // Latin-1 keeps one character per byte, so that places in the text are places in the file.
    String text = new String(tail, StandardCharsets.ISO_8859_1);
    Matcher note = bytewise().matcher(text);
    int last = -1;
    int end = 0;
    while (note.find()) {
      last = note.start();
      end = note.end();
    }
    if (last < 0 && from > 0) {
      throw new LedgerRefusal("the checkpoint file does not end in checkpoints: " + path);
    }
    this.end = from + end;
    if (last >= 0) {
      newest = Optional.of(parse(utf8(text.substring(last, end))));
    }
    if (file.size() > this.end) {
      disk.truncate(file, this.end);
      disk.sync(file);
    }
  }

  private static Pattern bytewise() {
    return Pattern.compile(
        new String(NOTE.pattern().getBytes(StandardCharsets.UTF_8), StandardCharsets.ISO_8859_1));
  }

  private static String utf8(String latin1) {
    return new String(latin1.getBytes(StandardCharsets.ISO_8859_1), StandardCharsets.UTF_8);
  }

  private SignedNote parse(String note) {
    try {
      SignedNote parsed = SignedNote.parse(note);
      Checkpoint.parse(parsed.text());
      return parsed;
    } catch (IllegalArgumentException damaged) {
      throw new LedgerRefusal(
          "the checkpoint file " + path + " is damaged: " + damaged.getMessage(), damaged);
    }
  }

  private byte[] read(long from, int length) throws IOException {
    ByteBuffer bytes = ByteBuffer.allocate(length);
    while (bytes.hasRemaining() && file.read(bytes, from + bytes.position()) >= 0) {
      // Until all is read.
    }
    return bytes.array();
  }

  /** The note that was written last. */
  Optional<SignedNote> newest() {
    return newest;
  }

  /** Every note, in the order they were signed. */
  List<SignedNote> all() {
    try {
      String text = new String(read(0, Math.toIntExact(end)), StandardCharsets.UTF_8);
      List<SignedNote> notes = new ArrayList<>();
      Matcher note = NOTE.matcher(text);
      int at = 0;
      while (note.find(at) && note.start() == at) {
        notes.add(parse(note.group()));
        at = note.end();
      }
      if (at != text.length()) {
        throw new LedgerRefusal("the checkpoint file " + path + " is damaged at character " + at);
      }
      return notes;
    } catch (IOException e) {
      throw new LedgerRefusal("cannot read the checkpoint file " + path + ": " + e.getMessage(), e);
    }
  }

  /**
   * Adds a note; it is on disk when this returns. After an error the file may be used no more.
   *
   * @throws LedgerRefusal if it could not be written and synced
   */
  void append(SignedNote note) {
    byte[] bytes = note.toText().getBytes(StandardCharsets.UTF_8);
    try {
      disk.write(file, bytes, end);
      disk.sync(file);
    } catch (IOException e) {
      throw new LedgerRefusal(
          "cannot write the checkpoint file " + path + ": " + e.getMessage(), e);
    }
    end += bytes.length;
    newest = Optional.of(note);
  }

  @Override
  public void close() {
    try {
      file.close();
    } catch (IOException e) {
      throw new LedgerRefusal("cannot close the checkpoint file " + path, e);
    }
  }
}
