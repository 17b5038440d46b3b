/**
 * The job file: an append-only, hash-chained log of entries in SQLite. Nothing is edited; a
 * correction supersedes and says why.
 */
@NullMarked
package ferrule.store.job;

import org.jspecify.annotations.NullMarked;
