/**
 * Renders end faces whose truth is known. An object plane of reflectances (fibre core, cladding,
 * adhesive ring, ferrule with polishing grain, flaws) in micrometres is lit unevenly, blurred by a
 * Gaussian point spread (the stand-in of the Airy pattern, standard deviation 0.21 wavelength/NA,
 * widened for focus), sampled by the sensor with noise that grows with the root of the light,
 * quantised to 8 or 16 bits and, if asked, pressed by JPEG. Same seed, same bytes.
 */
@NullMarked
package ferrule.vision.scene;

import org.jspecify.annotations.NullMarked;
