/**
 * Links of array connectors: the parts they are made of, where each position arrives, whether
 * transmit meets receive, and which part is wrong when a measured map says otherwise.
 */
@NullMarked
package ferrule.core.array;

import org.jspecify.annotations.NullMarked;
