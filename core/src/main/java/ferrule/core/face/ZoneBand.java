package ferrule.core.face;

import ferrule.core.rulebook.Figure;

/**
 * A zone of one class, as a ring.
 *
 * @param zone which
 * @param innerUm inner diameter, µm; 0 for the innermost
 * @param outer outer diameter, µm, with its source
 */
public record ZoneBand(Zone zone, double innerUm, Figure outer) {}
