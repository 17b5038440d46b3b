/**
 * The record for the owner: one folder with pages to read, open data to recompute from, and a list
 * of hashes. Knows only {@code core}; takes the time of issue as an argument, so that the same
 * judgement issued at the same time gives the same bytes.
 */
@NullMarked
package ferrule.record;

import org.jspecify.annotations.NullMarked;
