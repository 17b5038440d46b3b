/**
 * Standards as data. Every number carries standard, edition, clause where known, the confidence
 * with which it is known, and where it was seen.
 */
@NullMarked
package ferrule.core.rulebook;

import org.jspecify.annotations.NullMarked;
