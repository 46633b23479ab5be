/**
 * Pages as PDF, from the same HTML as the screen shows. {@link evenside.api.pdf.Pdf} is the way in.
 *
 * <p>Nothing is loaded while a PDF is made: style sheet and fonts are in the jar, drawings are
 * painted shape by shape, and their letters as outlines of the same fonts.
 */
@org.jspecify.annotations.NullMarked
package evenside.api.pdf;
