/**
 * One day of tests: {@link evenside.battery.Battery} holds a {@link evenside.battery.Result} per
 * measure and side, with every {@link evenside.battery.Trial}, and each questionnaire as it was
 * {@link evenside.battery.FilledIn filled in}.
 */
@NullMarked
package evenside.battery;

import org.jspecify.annotations.NullMarked;
