/**
 * What is built and what tests it: links with their two ends, instruments, cords and their ends.
 */
@NullMarked
package ferrule.core.plant;

import org.jspecify.annotations.NullMarked;
