/** Tests of the simulator, and bounds on what the judge finds in it. */
@NullMarked
package ferrule.trial;

import org.jspecify.annotations.NullMarked;
