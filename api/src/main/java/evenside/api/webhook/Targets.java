package evenside.api.webhook;

import evenside.api.server.Loopback;
import evenside.api.settings.BadSettings;
import java.io.IOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.util.ArrayList;
import java.util.Base64;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The file of targets: UTF-8, a line for each clinic, {@code #} before a comment line. A line has
 * four words: the clinic, the URL, the name of the secret, the secret in base64.
 */
public final class Targets {
  /** As many bytes as the hash of the signature has (RFC 2104, section 3). */
  private static final int LEAST_SECRET = 32;

  private static final int WORDS = 4;

  private final Path file;
  private final List<String> faults = new ArrayList<>();
  private final Map<String, Integer> lineOf = new HashMap<>();

  private Targets(Path file) {
    this.file = file;
  }

  /**
   * Reads a file.
   *
   * @throws BadSettings naming every fault and its line; a secret is never repeated
   */
  public static List<Target> read(Path file) {
    return new Targets(file).read();
  }

  private List<Target> read() {
    List<Target> targets = new ArrayList<>();
    List<String> lines = lines();
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i).strip();
      if (!line.isEmpty() && !line.startsWith("#")) {
        try {
          targets.add(target(line, i + 1));
        } catch (IllegalArgumentException e) {
          faults.add(file + ":" + (i + 1) + ": " + e.getMessage());
        }
      }
    }
    if (!faults.isEmpty()) {
      throw new BadSettings(faults);
    }
    return targets;
  }

  private Target target(String line, int number) {
    String[] words = line.split("\\s+", -1);
    if (words.length != WORDS) {
      throw new IllegalArgumentException(
          "a line is \"clinic url key-name secret\", four words, not " + words.length);
    }
    if (!words[0].matches("[A-Za-z0-9._-]{1,64}")) {
      throw new IllegalArgumentException("the clinic must be 1 to 64 of A-Z a-z 0-9 . _ -");
    }
    if (!words[2].matches("[A-Za-z0-9._-]{1,64}")) {
      throw new IllegalArgumentException("the key's name must be 1 to 64 of A-Z a-z 0-9 . _ -");
    }
    Integer before = lineOf.putIfAbsent(words[0], number);
    if (before != null) {
      throw new IllegalArgumentException(
          "the clinic " + words[0] + " has a receiver already in line " + before);
    }
    return new Target(words[0], url(words[1]), words[2], new Target.Secret(secret(words[3])));
  }

  private static URI url(String text) {
    URI url;
    try {
      url = new URI(text);
    } catch (URISyntaxException e) {
      throw new IllegalArgumentException("the URL cannot be read", e);
    }
    String host = url.getHost();
    if (host == null || url.getRawUserInfo() != null || url.getRawFragment() != null) {
      throw new IllegalArgumentException(
          "the URL must name a host, and neither a user nor a fragment");
    }
    boolean here = "http".equals(url.getScheme()) && Loopback.isAddress(host);
    if (!"https".equals(url.getScheme()) && !here) {
      throw new IllegalArgumentException(
          "the URL must be https, or http to 127.0.0.1, [::1] or localhost");
    }
    return url;
  }

  private static byte[] secret(String text) {
    byte[] secret;
    try {
      secret = Base64.getDecoder().decode(text);
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException("the secret is not base64", e);
    }
    if (secret.length < LEAST_SECRET) {
      throw new IllegalArgumentException(
          "the secret must have at least " + LEAST_SECRET + " bytes, not " + secret.length);
    }
    return secret;
  }

  private List<String> lines() {
    try {
      refuseOpenToOthers();
      return Files.readAllLines(file);
    } catch (NoSuchFileException e) {
      throw new BadSettings("there is no webhooks file " + file);
    } catch (CharacterCodingException e) {
      throw new BadSettings("the webhooks file " + file + " is not UTF-8");
    } catch (IOException e) {
      throw new BadSettings("the webhooks file " + file + " cannot be read: " + e.getMessage());
    }
  }

  private void refuseOpenToOthers() throws IOException {
    if (!FileSystems.getDefault().supportedFileAttributeViews().contains("posix")) {
      return;
    }
    for (PosixFilePermission permission : Files.getPosixFilePermissions(file)) {
      if (!permission.name().startsWith("OWNER")) {
        throw new BadSettings(
            "others may read the secrets in " + file + ": give it mode 0600, and new secrets");
      }
    }
  }
}
