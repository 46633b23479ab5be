/**
 * What can be set about the service. {@link evenside.api.settings.Catalogue} declares each setting
 * once, one {@link evenside.api.settings.Setting} a line; {@link evenside.api.settings.Settings} is
 * what is in force, taken from a file, the environment and flags, and knows where each value came
 * from.
 */
@NullMarked
package evenside.api.settings;

import org.jspecify.annotations.NullMarked;
