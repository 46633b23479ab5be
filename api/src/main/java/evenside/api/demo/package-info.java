/** An invented clinic, so that a first call has something to answer. */
@NullMarked
package evenside.api.demo;

import org.jspecify.annotations.NullMarked;
