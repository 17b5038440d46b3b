/**
 * Pictures of end faces on their way from files to grades: finding them, reading them side by side
 * in bounded memory, grading, and showing what came of it.
 */
@NullMarked
package ferrule.app.face;

import org.jspecify.annotations.NullMarked;
