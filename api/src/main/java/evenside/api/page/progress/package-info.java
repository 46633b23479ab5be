/**
 * The progress sheet: {@link evenside.api.page.progress.ProgressSheet} from a computed progress.
 */
@org.jspecify.annotations.NullMarked
package evenside.api.page.progress;
