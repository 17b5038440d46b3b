/** Tests of the joint estimate from within: its algebra and its statistics. */
@NullMarked
package ferrule.core.trust.joint;

import org.jspecify.annotations.NullMarked;
