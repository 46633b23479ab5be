package evenside.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.h2.store.fs.FilePathWrapper;

/**
 * A disk whose cache can be looked behind: it keeps apart what a file had when it was last synced,
 * and what was written since. A power cut leaves the first and any part of the second.
 *
 * <p>It stands in front of a real file as an H2 file system of its own, {@code forgetful:}. One
 * database file at a time. Public, as H2 makes one for each path.
 */
public final class ForgetfulDisk extends FilePathWrapper {
  private static final String DATABASE = ".mv.db";

  private static final List<Write> UNSYNCED = new ArrayList<>();
  private static byte[] synced = new byte[0];

  /** Bytes at a place; none of them: the file is cut there. */
  private record Write(long position, byte[] bytes, boolean truncate) {
    byte[] applyTo(byte[] file) {
      if (truncate) {
        return Arrays.copyOf(file, Math.min(file.length, (int) position));
      }
      int end = (int) position + bytes.length;
      byte[] written = end > file.length ? Arrays.copyOf(file, end) : file;
      System.arraycopy(bytes, 0, written, (int) position, bytes.length);
      return written;
    }
  }

  static String url(Path file) {
    register(new ForgetfulDisk());
    synchronized (UNSYNCED) {
      UNSYNCED.clear();
      synced = new byte[0];
    }
    return "jdbc:h2:forgetful:" + file;
  }

  /**
   * The file as a power cut at this moment may leave it.
   *
   * @param survives chance of a write since the last sync to be on disk nevertheless, 0 to 1
   */
  static byte[] afterPowerCut(double survives, Random random) {
    synchronized (UNSYNCED) {
      byte[] file = synced.clone();
      for (Write write : UNSYNCED) {
        if (random.nextDouble() < survives) {
          file = write.applyTo(file);
        }
      }
      return file;
    }
  }

  @Override
  public String getScheme() {
    return "forgetful";
  }

  @Override
  public FileChannel open(String mode) throws IOException {
    FileChannel base = super.open(mode);
    return getBase().toString().endsWith(DATABASE) ? new Channel(base) : base;
  }

  private static void remember(Write write) {
    synchronized (UNSYNCED) {
      UNSYNCED.add(write);
    }
  }

  private static final class Channel extends PassingChannel {
    Channel(FileChannel base) {
      super(base);
    }

    @Override
    public int write(ByteBuffer source, long position) throws IOException {
      byte[] bytes = new byte[source.remaining()];
      source.duplicate().get(bytes);
      int written = super.write(source, position);
      remember(new Write(position, Arrays.copyOf(bytes, written), false));
      return written;
    }

    @Override
    protected void implTruncate(long size) throws IOException {
      super.implTruncate(size);
      remember(new Write(size, new byte[0], true));
    }

    /** Takes to disk what was written before the sync started, as real disks promise no more. */
    @Override
    public void force(boolean metaData) throws IOException {
      int before;
      synchronized (UNSYNCED) {
        before = UNSYNCED.size();
      }
      super.force(metaData);
      synchronized (UNSYNCED) {
        List<Write> done = UNSYNCED.subList(0, Math.min(before, UNSYNCED.size()));
        for (Write write : done) {
          synced = write.applyTo(synced);
        }
        done.clear();
      }
    }
  }
}
