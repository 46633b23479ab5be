/**
 * The programs that call for a clinic, and their keys. {@link evenside.clients.ClientKeys} issues,
 * finds and revokes them; a {@link evenside.clients.ClientKey} is what is known of one, without its
 * secret.
 */
@NullMarked
package evenside.clients;

import org.jspecify.annotations.NullMarked;
