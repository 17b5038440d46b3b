@NullMarked
package ferrule.core.entry;

import org.jspecify.annotations.NullMarked;
