package evenside.ledger;

import evenside.store.PassingChannel;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import org.h2.store.fs.FilePathWrapper;

/**
 * An H2 file system, {@code faulty:}, that fails at one of its writes and syncs, by a counter that
 * it shares with the side file. Public, as H2 makes one for each path.
 */
public final class FaultyDatabase extends FilePathWrapper {
  private static final String DATABASE = ".mv.db";

  private static Fault fault = Fault.NEVER;

  static String url(Path file, Fault next) {
    register(new FaultyDatabase());
    fault = next;
    return "jdbc:h2:faulty:" + file;
  }

  @Override
  public String getScheme() {
    return "faulty";
  }

  @Override
  public FileChannel open(String mode) throws IOException {
    FileChannel base = super.open(mode);
    return getBase().toString().endsWith(DATABASE) ? new Channel(base, fault) : base;
  }

  private static final class Channel extends PassingChannel {
    private final Fault fault;

    Channel(FileChannel base, Fault fault) {
      super(base);
      this.fault = fault;
    }

    @Override
    public int write(ByteBuffer source, long position) throws IOException {
      fault.next("database write");
      return super.write(source, position);
    }

    @Override
    protected void implTruncate(long size) throws IOException {
      fault.next("database truncate");
      super.implTruncate(size);
    }

    @Override
    public void force(boolean metaData) throws IOException {
      fault.next("database sync");
      super.force(metaData);
    }
  }
}
