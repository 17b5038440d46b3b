/** Trials of the desk: over HTTP, and in a browser. */
@NullMarked
package ferrule.app.desk;

import org.jspecify.annotations.NullMarked;
