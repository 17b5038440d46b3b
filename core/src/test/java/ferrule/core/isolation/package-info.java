/** Tests of cord isolation. */
@NullMarked
package ferrule.core.isolation;

import org.jspecify.annotations.NullMarked;
