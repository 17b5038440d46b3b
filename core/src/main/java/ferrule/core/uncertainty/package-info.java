/**
 * The uncertainty of one loss reading (GUM, JCGM 100:2008) and the decision about it against a
 * limit (JCGM 106:2012, which is ISO/IEC Guide 98-4).
 */
@NullMarked
package ferrule.core.uncertainty;

import org.jspecify.annotations.NullMarked;
