/**
 * Before the first test, from the papers alone: limit and expected loss side by side, questions for
 * the owner with what each costs if it is found late, the method advised, the kit, the faces to
 * inspect, crew hours and a walking order. Nothing here changes how a job is judged.
 */
@NullMarked
package ferrule.core.plan;

import org.jspecify.annotations.NullMarked;
