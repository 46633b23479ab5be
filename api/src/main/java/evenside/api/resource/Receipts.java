package evenside.api.resource;

import evenside.api.http.Reply;
import evenside.ledger.Receipt;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.Optional;

/**
 * Where a record is in the ledger, as headers: the body is the committed bytes, which cannot hold
 * their own index. The checkpoint is the signed text in base64; whoever keeps it is a witness.
 */
final class Receipts {
  static final String INDEX = "Evenside-Ledger-Index";
  static final String CHECKPOINT = "Evenside-Ledger-Checkpoint";

  private Receipts() {}

  /** The same reply with the receipt, if there is one. */
  static Reply with(Reply reply, Optional<Receipt> receipt) {
    return receipt
        .map(
            given ->
                reply
                    .with(INDEX, Long.toString(given.index()))
                    .with(CHECKPOINT, base64(given.checkpoint())))
        .orElse(reply);
  }

  private static String base64(String checkpoint) {
    return Base64.getEncoder().encodeToString(checkpoint.getBytes(StandardCharsets.UTF_8));
  }
}
