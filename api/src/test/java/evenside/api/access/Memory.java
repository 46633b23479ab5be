package evenside.api.access;

import java.io.IOException;
import java.nio.charset.StandardCharsets;

/** A document in memory, which a test can change or lose. */
final class Memory implements Source {
  String text;
  int reads;
  boolean gone;

  Memory(String text) {
    this.text = text;
  }

  @Override
  public String name() {
    return "memory";
  }

  @Override
  public byte[] read() throws IOException {
    reads++;
    if (gone) {
      throw new IOException("gone");
    }
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
