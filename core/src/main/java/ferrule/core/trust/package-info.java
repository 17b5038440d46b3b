/**
 * Whether the readings can be believed: doubts with their reach, the standing of every fibre, the
 * trust of every zero, and the actions that free most fibres for least time.
 */
@NullMarked
package ferrule.core.trust;

import org.jspecify.annotations.NullMarked;
