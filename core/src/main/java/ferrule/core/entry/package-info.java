/**
 * Readings and zeros entered by hand: what typed numbers mean, which fibre comes next at a panel,
 * what looks like a slip of the hand, and what one fibre's readings say before the whole job is
 * judged anew.
 */
@NullMarked
package ferrule.core.entry;

import org.jspecify.annotations.NullMarked;
