/** One class a command, thin: options in, services called, words and an exit code out. */
@NullMarked
package ferrule.app.command;

import org.jspecify.annotations.NullMarked;
