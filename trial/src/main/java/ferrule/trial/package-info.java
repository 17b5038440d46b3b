/**
 * Simulated test jobs with a physics of their own, clean or with one planted trouble, and how well
 * the judge finds what was planted. It shares no model with the judge: of core it uses the types of
 * a job, the rulebooks and {@link ferrule.core.trust.Judge#judge} only. Never shipped.
 */
@NullMarked
package ferrule.trial;

import org.jspecify.annotations.NullMarked;
