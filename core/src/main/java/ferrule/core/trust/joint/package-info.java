/**
 * The joint estimate over a whole job: glass, connections, the fibre's own part shared by its
 * directions and wavelengths, the shift of every zero per direction and wavelength, and on top of
 * these the troubles that many readings share: shifts, steps, drifts, panels, positions.
 *
 * <p>Flow: {@link ferrule.core.trust.joint.Frame} (readings less expected loss, as arrays), {@link
 * ferrule.core.trust.joint.Scatter} (how honest readings of one fibre scatter together), {@link
 * ferrule.core.trust.joint.JointFit} (the estimate), {@link ferrule.core.trust.joint.Search} (what
 * the estimate leaves unexplained, judged by the number of looks), {@link
 * ferrule.core.trust.joint.JointDoubts} (doubts).
 */
@NullMarked
package ferrule.core.trust.joint;

import org.jspecify.annotations.NullMarked;
