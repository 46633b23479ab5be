/**
 * The web server around the routes: how it is reached ({@link evenside.api.server.Front}: names,
 * TLS), what it refuses before any route sees it ({@link evenside.api.server.Server} puts that
 * together), how much it gives to those who connect, how it stops, and its access log.
 */
@NullMarked
package evenside.api.server;

import org.jspecify.annotations.NullMarked;
