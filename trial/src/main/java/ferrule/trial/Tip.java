package ferrule.trial;

/**
 * One end that can be mated: of a fibre of a link, or of a test cord.
 *
 * @param plug its geometry, used where connections follow from geometry
 * @param ownShortDb what it brings to any connection otherwise, dB, at the shorter wavelength
 * @param ownLongDb at the longer
 * @param filmDb film of dirt, dB, the same at both
 */
record Tip(Plug plug, double ownShortDb, double ownLongDb, double filmDb) {}
