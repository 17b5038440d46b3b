/** Tests of reading and examining pictures. */
@NullMarked
package ferrule.vision;

import org.jspecify.annotations.NullMarked;
