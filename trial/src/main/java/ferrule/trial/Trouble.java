package ferrule.trial;

import java.util.Optional;

/** One trouble that can be planted in a clean campaign. */
sealed interface Trouble
    permits LevelTroubles.ZeroShift,
        LevelTroubles.DirectionBias,
        LevelTroubles.LevelStep,
        LevelTroubles.LevelDrift,
        PlaceTroubles.PanelHigh,
        PlaceTroubles.PositionHigh,
        FibreTroubles.Outlier,
        FibreTroubles.BelowFloor,
        FibreTroubles.WavelengthOrder,
        FibreTroubles.DirectionGap,
        LengthTroubles.LengthScale,
        LengthTroubles.LengthOffset,
        LengthTroubles.LengthGap,
        LengthTroubles.Crossed,
        LengthTroubles.PortShift,
        TimeTroubles.RepeatedValues,
        TimeTroubles.TooQuick,
        TimeTroubles.Clock,
        PaperTroubles.ZeroPower,
        PaperTroubles.ZeroUnverified,
        PaperTroubles.ZeroVerification,
        PaperTroubles.ZeroMismatch,
        PaperTroubles.ZeroLapsed,
        PaperTroubles.CalibrationLapsed,
        PaperTroubles.CordWorn,
        PaperTroubles.Missing,
        PaperTroubles.Unscheduled,
        PaperTroubles.ReadTwice,
        PaperTroubles.PaperConflict {

  /** Id of the kind of doubt that should name it. */
  String kind();

  /** How large it is, in dB or as said by its kind; NaN if it has no size. */
  double size();

  /**
   * Plants it.
   *
   * @return what was planted; empty, with the campaign possibly spoilt, if this plan has no place
   *     for it
   */
  Optional<Planted> plant(Campaign campaign, Dice dice);
}
