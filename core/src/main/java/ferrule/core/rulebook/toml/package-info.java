/**
 * TOML text as sections of keys, values and lines. Plain text, which is what people write, is read
 * by a small quick reader; everything else, and everything wrong, by a whole TOML library.
 */
@NullMarked
package ferrule.core.rulebook.toml;

import org.jspecify.annotations.NullMarked;
