/**
 * Many records in one request, one a line.
 *
 * <p>{@link evenside.api.bulk.BulkResource} takes a body of lines. {@link
 * evenside.api.bulk.LineDesk} does a line as a request of its own would be done; {@link
 * evenside.api.bulk.Lines} has many in hand at once and keeps the order of answers, and that of the
 * lines of one case. What is too much for one request becomes a job, which a {@link
 * evenside.api.bulk.JobWorker} does afterwards.
 */
@NullMarked
package evenside.api.bulk;

import org.jspecify.annotations.NullMarked;
