/**
 * What every route shares, strictly: {@link evenside.api.http.Route} is one line of the route
 * table, an {@link evenside.api.http.Endpoint} turns a {@link evenside.api.http.Call} into a {@link
 * evenside.api.http.Reply}, {@link evenside.api.http.Dispatcher} stands between these and the
 * server. Nothing here knows a resource.
 */
@NullMarked
package evenside.api.http;

import org.jspecify.annotations.NullMarked;
