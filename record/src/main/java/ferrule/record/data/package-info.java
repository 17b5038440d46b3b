/**
 * The open data of a judgement, for other people's scripts and spreadsheets: JSON and CSV. Numbers
 * are unrounded; what is absent is {@code null} or an empty cell, never a word for "not a number".
 */
@NullMarked
package ferrule.record.data;

import org.jspecify.annotations.NullMarked;
