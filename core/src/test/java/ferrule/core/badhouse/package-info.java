/**
 * A house built wrong on purpose: {@link ferrule.core.ArchitectureTest} proves on it that its rules
 * can fail.
 */
@NullMarked
package ferrule.core.badhouse;

import org.jspecify.annotations.NullMarked;
