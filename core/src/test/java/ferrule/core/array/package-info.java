/** Array links. */
@NullMarked
package ferrule.core.array;

import org.jspecify.annotations.NullMarked;
