/** Wrong on purpose, to prove that the rules can fail. */
@NullMarked
package ferrule.core.badhouse.entry;

import org.jspecify.annotations.NullMarked;
