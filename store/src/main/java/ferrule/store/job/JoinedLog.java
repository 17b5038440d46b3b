package ferrule.store.job;

import java.util.List;

/**
 * A job file that is to be joined, as it was read.
 *
 * @param shown its name as the user gave it
 * @param entries in order, the chain of hashes checked
 * @param head hash of the last, lower-case hex
 * @param open what it leaves open
 * @param origins what it was joined of itself
 */
record JoinedLog(
    String shown, List<Entry> entries, String head, OpenMatters open, List<Origin> origins) {}
