/** Cases and the batteries recorded on them: putting, correcting, looking up, erasing. */
@NullMarked
package evenside.readiness.cases;

import org.jspecify.annotations.NullMarked;
