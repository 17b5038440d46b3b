/** Tests of acceptance samples. */
@NullMarked
package ferrule.core.sample;

import org.jspecify.annotations.NullMarked;
