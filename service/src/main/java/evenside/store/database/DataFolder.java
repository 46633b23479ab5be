package evenside.store.database;

import java.io.IOException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;

/** Health data: a folder that we make is the owner's alone. One that is there stays as it is. */
public final class DataFolder {
  private DataFolder() {}

  /**
   * Makes the folder and those above it, where they are not there.
   *
   * @throws StoreException if it cannot be made
   */
  public static void make(Path folder) {
    try {
      if (FileSystems.getDefault().supportedFileAttributeViews().contains("posix")) {
        Files.createDirectories(
            folder,
            PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rwx------")));
      } else {
        Files.createDirectories(folder);
      }
    } catch (IOException e) {
      throw new StoreException("cannot make the data folder " + folder + ": " + e, e);
    }
  }
}
