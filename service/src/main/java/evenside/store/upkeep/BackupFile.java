package evenside.store.upkeep;

import evenside.store.database.DataFolder;
import evenside.store.database.StoreException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.function.Consumer;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;

/**
 * A copy of an embedded store in one file: a zip with the database file, as H2 writes it. Neither
 * the ledger's key nor the checkpoints beside the database are in it, so that whoever has the copy
 * cannot sign, and a service that goes back to an older copy is found out by its checkpoints.
 */
public final class BackupFile {
  private static final String DATABASE = "evenside.mv.db";

  private BackupFile() {}

  /** Writes under another name first, so that a file of that name is always whole and synced. */
  public static void write(Path file, Consumer<Path> write) {
    Path part = file.toAbsolutePath().resolveSibling(file.getFileName() + ".part");
    if (Files.exists(file)) {
      throw new StoreException("there is a file already: " + file);
    }
    try {
      Files.deleteIfExists(part);
      Files.createFile(part, ownerOnly());
      write.accept(part);
      finish(part, file.toAbsolutePath());
    } catch (IOException e) {
      throw new StoreException("cannot write " + file + ": " + e, e);
    } finally {
      part.toFile().delete();
    }
  }

  /**
   * Puts the database of a copy into a data folder that has none.
   *
   * @throws StoreException if the folder has a database, or the file is no such copy
   */
  public static void restore(Path file, Path folder) {
    Path database = folder.toAbsolutePath().resolve(DATABASE);
    if (Files.exists(database)) {
      throw new StoreException("the data folder has a record already: " + folder);
    }
    try (InputStream in = Files.newInputStream(file);
        ZipInputStream zip = new ZipInputStream(in)) {
      ZipEntry entry = zip.getNextEntry();
      while (entry != null && !entry.getName().equals(DATABASE)) {
        entry = zip.getNextEntry();
      }
      if (entry == null) {
        throw new StoreException("the file is no copy of a record: " + file);
      }
      DataFolder.make(folder);
      write(database, part -> copy(zip, part));
    } catch (NoSuchFileException e) {
      throw new StoreException("there is no file " + file, e);
    } catch (IOException | UncheckedIOException e) {
      throw new StoreException("cannot restore " + file + ": " + e, e);
    }
  }

  /**
   * Takes away again what was restored and cannot be opened: else a whole copy would find the
   * folder taken.
   */
  public static void takeBack(Path folder) {
    try {
      Files.deleteIfExists(folder.resolve(DATABASE));
    } catch (IOException e) {
      throw new StoreException("cannot clear the data folder " + folder + ": " + e, e);
    }
  }

  private static void copy(InputStream from, Path to) {
    try (var out = Files.newOutputStream(to)) {
      from.transferTo(out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void finish(Path part, Path file) throws IOException {
    try (FileChannel channel = FileChannel.open(part, StandardOpenOption.WRITE)) {
      channel.force(true);
    }
    if (Files.exists(file)) {
      throw new FileAlreadyExistsException(file.toString());
    }
    Files.move(part, file, StandardCopyOption.ATOMIC_MOVE);
    try (FileChannel folder = FileChannel.open(file.resolveSibling("."), StandardOpenOption.READ)) {
      folder.force(true);
    }
  }

  private static FileAttribute<?>[] ownerOnly() {
    return FileSystems.getDefault().supportedFileAttributeViews().contains("posix")
        ? new FileAttribute<?>[] {
          PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"))
        }
        : new FileAttribute<?>[0];
  }
}
