package evenside.ledger;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.util.concurrent.atomic.AtomicInteger;

/** Lets a number of file operations pass, and fails the one after them; once, or from then on. */
final class Fault {
  static final Fault NEVER = new Fault(Integer.MAX_VALUE, false);

  private final AtomicInteger left;
  private final boolean forEver;
  private volatile String failed = "";

  Fault(int passing, boolean forEver) {
    this.left = new AtomicInteger(passing);
    this.forEver = forEver;
  }

  void next(String operation) throws IOException {
    int before = left.getAndDecrement();
    if (before == 0 || before < 0 && forEver) {
      failed = operation;
      throw new IOException("injected: " + operation);
    }
  }

  /** The operation that failed; empty if none did. */
  String failed() {
    return failed;
  }

  /** The ledger's own files on a disk with this fault. A write that fails is cut short. */
  Disk disk() {
    return new Disk() {
      @Override
      void write(FileChannel file, byte[] bytes, long at) throws IOException {
        try {
          next("write");
        } catch (IOException e) {
          super.write(file, java.util.Arrays.copyOf(bytes, bytes.length / 2), at);
          throw e;
        }
        super.write(file, bytes, at);
      }

      @Override
      void truncate(FileChannel file, long size) throws IOException {
        next("truncate");
        super.truncate(file, size);
      }

      @Override
      void sync(FileChannel file) throws IOException {
        next("sync");
        super.sync(file);
      }

      @Override
      void rename(Path from, Path to) throws IOException {
        next("rename");
        super.rename(from, to);
      }
    };
  }
}
