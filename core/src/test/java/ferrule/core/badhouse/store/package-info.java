/** Known by what is wrong on purpose. */
@NullMarked
package ferrule.core.badhouse.store;

import org.jspecify.annotations.NullMarked;
