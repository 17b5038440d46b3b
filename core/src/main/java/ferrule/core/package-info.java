/**
 * What is true of fibre links. Pure: no files, no screens, no clock, no randomness, no database, no
 * logging; the same arguments give the same results.
 */
@NullMarked
package ferrule.core;

import org.jspecify.annotations.NullMarked;
