package ferrule.core.trust.many;

/**
 * Two fibres whose readings fit better exchanged.
 *
 * @param first slot of the one
 * @param second slot of the other, above the first
 * @param logRatio logarithm of the likelihood ratio of exchanged to as filed
 */
record CrossedPair(int first, int second, double logRatio) {}
