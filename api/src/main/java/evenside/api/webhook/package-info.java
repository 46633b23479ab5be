/**
 * Tells the receiver of a clinic that a decision was recorded. {@link evenside.api.webhook.Targets}
 * are read from a file at the start and from nowhere else; {@link evenside.api.webhook.Webhooks}
 * empties the queue of each clinic; {@link evenside.api.webhook.Sender} sends one announcement,
 * signed as {@link evenside.api.webhook.MessageSignature} says.
 */
@NullMarked
package evenside.api.webhook;

import org.jspecify.annotations.NullMarked;
