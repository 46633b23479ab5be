package evenside.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import org.h2.store.fs.FileBaseDefault;

/** A file of H2 that passes everything on, for a disk that does something of its own besides. */
public class PassingChannel extends FileBaseDefault {
  private final FileChannel base;

  protected PassingChannel(FileChannel base) {
    this.base = base;
  }

  @Override
  public int read(ByteBuffer target, long position) throws IOException {
    return base.read(target, position);
  }

  @Override
  public int write(ByteBuffer source, long position) throws IOException {
    return base.write(source, position);
  }

  @Override
  protected void implTruncate(long size) throws IOException {
    base.truncate(size);
  }

  @Override
  public void force(boolean metaData) throws IOException {
    base.force(metaData);
  }

  @Override
  public long size() throws IOException {
    return base.size();
  }

  @Override
  public FileLock tryLock(long position, long size, boolean shared) throws IOException {
    return base.tryLock(position, size, shared);
  }

  @Override
  protected void implCloseChannel() throws IOException {
    base.close();
  }
}
