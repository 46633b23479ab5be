/** The published contract: loads the JSON Schemas and names every fault of a document. */
@NullMarked
package evenside.schemas;

import org.jspecify.annotations.NullMarked;
