package ferrule.core.trust;

import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Connector;

/**
 * What a zero sees of a link: fibre, and the connectors where light enters and leaves.
 *
 * @param category the link's fibre
 * @param entry connector at the end where the source stands
 * @param exit connector at the end where the meter stands
 */
public record LinkLook(FibreCategory category, Connector entry, Connector exit) {}
