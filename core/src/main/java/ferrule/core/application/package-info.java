/**
 * Which applications (Ethernet, Fibre Channel, access networks) a link carries, which not and by
 * how much: limits as data with their sources, and the comparison of each link with them.
 */
@NullMarked
package ferrule.core.application;

import org.jspecify.annotations.NullMarked;
