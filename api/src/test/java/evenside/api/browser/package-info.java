/** A real browser for tests, driven by its own debugging protocol. */
@org.jspecify.annotations.NullMarked
package evenside.api.browser;
