package evenside.ledger;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/**
 * The file operations that the ledger's promises rest on; one place, so that each can be failed.
 */
class Disk {
  static final Disk REAL = new Disk();

  void write(FileChannel file, byte[] bytes, long at) throws IOException {
    ByteBuffer rest = ByteBuffer.wrap(bytes);
    while (rest.hasRemaining()) {
      file.write(rest, at + rest.position());
    }
  }

  void truncate(FileChannel file, long size) throws IOException {
    file.truncate(size);
  }

  void sync(FileChannel file) throws IOException {
    file.force(true);
  }

  /** A new name is on disk only once the folder that holds it is. */
  void syncName(Path file) throws IOException {
    Path folder = file.toAbsolutePath().resolve("..").normalize();
    try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
      sync(channel);
    }
  }

  void rename(Path from, Path to) throws IOException {
    Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
  }
}
