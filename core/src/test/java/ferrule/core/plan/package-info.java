/** Tests of the plan. */
@NullMarked
package ferrule.core.plan;

import org.jspecify.annotations.NullMarked;
