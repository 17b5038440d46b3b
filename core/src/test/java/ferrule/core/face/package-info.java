/** Tests of criteria, grading and comparison of end faces. */
@NullMarked
package ferrule.core.face;

import org.jspecify.annotations.NullMarked;
