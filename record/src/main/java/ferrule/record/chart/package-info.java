/**
 * Drawings as inline SVG, for paper and screen alike: the margin band of a standing, the strip of
 * one reading, charts of many. What is in ink takes {@code currentColor}; hues are plain attributes
 * beside a class, so that a style sheet may set them anew. Form says everything before colour does.
 * No scripts, no references between parts, so nothing but the texts' ids must be unique.
 */
@NullMarked
package ferrule.record.chart;

import org.jspecify.annotations.NullMarked;
