/**
 * Drawings as SVG text, made on the server by small functions: a result against its bound, both
 * sides of a test, a course over time, a share with its interval, and the marks of outcomes. One
 * class draws each; they share a writer that escapes.
 *
 * <p>Shapes tell everything, colour only supports them. Words come from outside.
 */
@org.jspecify.annotations.NullMarked
package evenside.api.drawing;
