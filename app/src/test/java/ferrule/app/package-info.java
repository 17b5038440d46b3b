/** Tests of the command: in this process, and as the script that people run. */
@NullMarked
package ferrule.app;

import org.jspecify.annotations.NullMarked;
