/** Tests of the pages. */
@NullMarked
package ferrule.record.pdf;

import org.jspecify.annotations.NullMarked;
