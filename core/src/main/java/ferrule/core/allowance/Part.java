package ferrule.core.allowance;

import ferrule.core.rulebook.Provenance;

/**
 * One kind of thing that costs loss, with what one of it may cost or is expected to cost.
 *
 * @param what for a reader: "fibre OS2 at 1310 nm"
 * @param unit what is counted: "km", "connection", "splice", "device"
 * @param eachDb loss of one, dB (dB/km for fibre)
 * @param eachSdDb standard deviation of the loss of one, dB; 0 for a limit
 * @param source where the figure comes from
 */
public record Part(String what, String unit, double eachDb, double eachSdDb, Provenance source) {}
