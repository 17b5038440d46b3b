/**
 * For one fibre, wavelength and zero: the limit (the most loss permitted) and the expected loss
 * with its spread, every term shown.
 */
@NullMarked
package ferrule.core.allowance;

import org.jspecify.annotations.NullMarked;
