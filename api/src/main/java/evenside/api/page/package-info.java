/**
 * Pages for people: what they all share.
 *
 * <p>{@link evenside.api.page.Templates} fills a template of {@code src/main/jte}, {@link
 * evenside.api.page.Texts} holds every word, {@link evenside.api.page.Figures} writes numbers,
 * dates and units, {@link evenside.api.page.Terms} names measures and milestones, {@link
 * evenside.api.page.Assets} holds the one style sheet. A page is a record that its template takes;
 * the packages below make them from documents as they were recorded and compute nothing clinical.
 *
 * <p>A further page: a template that calls {@code @template.layout}, its words in {@code
 * texts.properties}, a record if it has data, and a route.
 */
@org.jspecify.annotations.NullMarked
package evenside.api.page;
