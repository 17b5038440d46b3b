package ferrule.core.zero;

import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.LossDb;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Direction;
import java.time.Instant;
import java.util.Optional;

/**
 * The part of a zero for one direction and wavelength: the power stored and how it was stored.
 *
 * @param setAt when it was set
 * @param direction where the source stands first
 * @param wavelength nominal wavelength
 * @param power the power stored
 * @param verification loss of the launch cord mated to the receive cord after the zero was set, if
 *     it was read
 * @param source id of the source; empty if not on record
 * @param meter id of the meter; empty if not on record
 * @param launchCord id of the launch cord; empty if not on record
 * @param receiveCord id of the receive cord; empty if not on record
 * @param substitutionCord id of the third cord; empty if not on record or not used
 * @param category fibre category of the cords, if on record
 * @param operator who set it; empty if not on record
 */
public record ZeroLevel(
    Instant setAt,
    Direction direction,
    Wavelength wavelength,
    LevelDbm power,
    Optional<LossDb> verification,
    String source,
    String meter,
    String launchCord,
    String receiveCord,
    String substitutionCord,
    Optional<FibreCategory> category,
    String operator) {}
