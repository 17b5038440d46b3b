/** Tests of the open data. */
@NullMarked
package ferrule.record.data;

import org.jspecify.annotations.NullMarked;
