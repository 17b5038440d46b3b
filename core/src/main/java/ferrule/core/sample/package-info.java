/**
 * Acceptance samples: how many fibres to read again, which, what to compare, and how often a sample
 * of that size misses what is bad.
 */
@NullMarked
package ferrule.core.sample;

import org.jspecify.annotations.NullMarked;
