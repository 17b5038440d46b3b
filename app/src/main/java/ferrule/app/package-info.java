/** The {@code ferrule} command: reads the command line, calls the other modules, prints. */
@NullMarked
package ferrule.app;

import org.jspecify.annotations.NullMarked;
