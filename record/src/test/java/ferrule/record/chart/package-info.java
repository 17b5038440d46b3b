/** Tests of the drawings. */
@NullMarked
package ferrule.record.chart;

import org.jspecify.annotations.NullMarked;
