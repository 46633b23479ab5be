/**
 * Who calls, and what it may do: {@link evenside.api.access.Authentication} tells the {@link
 * evenside.api.access.Caller}, which is held to the {@link evenside.api.access.Scope}s of a route.
 *
 * <p>By bearer token: {@link evenside.api.access.BearerTokens} asks {@link
 * evenside.api.access.ApiKeys} for a key of ours, and {@link evenside.api.access.AccessTokens} for
 * one of the authorization server that is trusted. Its keys and the clinics of its clients come
 * from files or a URL ({@link evenside.api.access.Source}), and are read again while the service
 * runs.
 */
@NullMarked
package evenside.api.access;

import org.jspecify.annotations.NullMarked;
