/** Tests of the record, and the invented jobs that they share. */
@NullMarked
package ferrule.record;

import org.jspecify.annotations.NullMarked;
